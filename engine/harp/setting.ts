import { accidentalSign, readAccidental } from '../music/accidental.ts';
import { isLetter, LETTERS, type Letter } from '../music/pitch.ts';
import { fail, ok, type Result } from '../problem.ts';
import { SIDES, type Side } from './side.ts';

/** A pedal's place: -1 flat (top notch), 0 natural (middle), 1 sharp (bottom). Equals the `alter` its strings give. */
export type Position = -1 | 0 | 1;

/** Where a pedal can stand, from the top notch down: -1 flat, 0 natural, 1 sharp. */
export const POSITIONS: readonly Position[] = [-1, 0, 1];

/** What the positions are called, in the order of `POSITIONS`. */
export const POSITION_NAMES = ['flat', 'natural', 'sharp'] as const;

/** Where a pedal stands, as a word. */
export type PositionName = (typeof POSITION_NAMES)[number];

/** The word for where a pedal stands. */
export const nameOfPosition = (position: Position): PositionName =>
  POSITION_NAMES[POSITIONS.indexOf(position)]!;

/** Where a pedal stands, by its word. */
export const positionNamed = (name: PositionName): Position => POSITIONS[POSITION_NAMES.indexOf(name)]!;

/** The positions of all seven pedals at one time. */
export type Setting = Readonly<Record<Letter, Position>>;

/** Which foot: the left has D C B, the right E F G A. */
export type Foot = Side;

/** Which foot works which pedals, from the player's left (common practice; MusicXML 4.0, `harp-pedals`). */
export const FEET: Readonly<Record<Foot, readonly Letter[]>> = {
  left: ['D', 'C', 'B'],
  right: ['E', 'F', 'G', 'A'],
};

/** The foot whose pedal moves the strings of a letter. */
export const footOf = (letter: Letter): Foot => (FEET.left.includes(letter) ? 'left' : 'right');

/** Whether a number of semitones is a position of a pedal. */
export const isPosition = (alter: number): alter is Position => alter === -1 || alter === 0 || alter === 1;

/** Whether all seven pedals are named. */
export const isSetting = (positions: Readonly<Partial<Record<Letter, Position>>>): positions is Setting =>
  LETTERS.every((letter) => positions[letter] !== undefined);

/** A setting from what is known of each letter; `at` is asked once for each of the seven. */
export const settingFrom = (at: (letter: Letter) => Position): Setting => ({
  D: at('D'),
  C: at('C'),
  B: at('B'),
  E: at('E'),
  F: at('F'),
  G: at('G'),
  A: at('A'),
});

/** One pedal as a harpist writes a change: letter and accidental, the natural sign included. */
export const formatChange = (letter: Letter, position: Position): string =>
  `${letter}${accidentalSign(position)}`;

/** Note names in pedal order with a divider between the feet: `D♮ C♯ B♭ | E♮ F♯ G♮ A♭`. */
export const formatSetting = (setting: Setting): string =>
  SIDES.map((foot) => FEET[foot].map((letter) => formatChange(letter, setting[letter])).join(' ')).join(
    ' | ',
  );

/**
 * Reads seven note names, real or ASCII accidentals, in any order, the divider optional.
 *
 * @returns the setting, or a `bad-value` problem (line 1, column of the first name that is wrong, doubled or missing)
 * @example parseSetting('Db C# Bb | E F# G A')
 */
export const parseSetting = (text: string): Result<Setting> => {
  const positions = new Map<Letter, Position>();
  for (const match of text.matchAll(/[^\s|]+/g)) {
    const letter = match[0].slice(0, 1);
    const position = readAccidental(match[0].slice(1));
    if (!isLetter(letter) || position === undefined || !isPosition(position) || positions.has(letter)) {
      return fail({ code: 'bad-value', what: 'pedal', value: match[0], line: 1, column: match.index + 1 });
    }
    positions.set(letter, position);
  }
  const missing = LETTERS.filter((letter) => !positions.has(letter));
  if (missing.length > 0) {
    return fail({
      code: 'bad-value',
      what: `setting (missing ${missing.join(' ')})`,
      value: text,
      line: 1,
      column: text.length + 1,
    });
  }
  return ok(settingFrom((letter) => positions.get(letter)!));
};
