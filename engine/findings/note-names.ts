import { type LeverAt, nameLeverAt } from '../harp/lever-name.ts';
import { type OpenTuning, tuningName } from '../harp/open-tuning.ts';
import type { HarpString } from '../harp/profile.ts';
import { nameString } from '../harp/scordatura.ts';
import { formatChange, formatSetting, type Position, type Setting } from '../harp/setting.ts';
import { accidentalSign } from '../music/accidental.ts';
import { isSamePitch, type Letter, type Pitch, pitchName, spelledName } from '../music/pitch.ts';

/** A pedal in one position; a need is one too. */
export interface PedalAt {
  readonly letter: Letter;
  readonly position: Position;
}

/** Nothing but the pedal and its position, of what may say more. */
export const pedalAt = ({ letter, position }: PedalAt): PedalAt => ({ letter, position });

/** As a harpist writes it: `C♯`. */
export const nameChange = ({ letter, position }: PedalAt): string => formatChange(letter, position);

/** A note in whatever octave. */
export type SpelledNote = Pick<Pitch, 'letter' | 'alter'>;

/** A string that is heard: what it gives, and the note that is printed for it. */
export interface HeardString {
  readonly pitch: Pitch;
  readonly written: Pitch;
}

/** As the player reads it, and its string where that has another name: `F𝄪3 (G3)`. */
export const nameHeardString = (
  { pitch, written }: HeardString,
  { pitch: name }: Pick<NoteNames, 'pitch'>,
): string => (isSamePitch(pitch, written) ? name(pitch) : `${name(written)} (${name(pitch)})`);

/** A name as it is written: of a string or of all strings of a letter, and what they are to give if that is said. */
export interface WrittenName {
  readonly letter: Letter;
  readonly octave: number | null;
  readonly alter: number | null;
}

/** How the sentences about findings name notes: on sheets as these ask. */
export interface NoteNames {
  /** With its octave: `C♯4`. */
  readonly pitch: (pitch: Pitch) => string;
  /** In whatever octave, a natural without its sign: `C♯`, `D`. */
  readonly note: (note: SpelledNote) => string;
  /** A pedal in a position, a natural with its sign: `C♯`, `D♮`. */
  readonly change: (change: PedalAt) => string;
  /** What a string is tuned to, a natural with its sign in German too. */
  readonly tunedTo: (to: PedalAt) => string;
  /** A pedal, or all strings of a letter. */
  readonly letter: (letter: Letter) => string;
  /** A string: `C4`. */
  readonly string: (string: HarpString) => string;
  /** What a string gives, a natural with its sign: `F♯4`, `F♮4`. */
  readonly lever: (lever: LeverAt) => string;
  /** A name of a string or of all strings of a letter, as far as it is written out. */
  readonly written: (name: WrittenName) => string;
  readonly setting: (setting: Setting) => string;
  /** How open strings are tuned, by their key if there is one: `E♭ major`. */
  readonly tuning: (tuning: OpenTuning) => string;
  readonly majorKey: (tonic: SpelledNote) => string;
}

/** As findings name notes on screen and in reports. */
export const ENGLISH_NAMES: NoteNames = {
  pitch: pitchName,
  note: spelledName,
  change: nameChange,
  tunedTo: nameChange,
  letter: (letter) => letter,
  string: nameString,
  lever: nameLeverAt,
  written: ({ letter, octave, alter }) =>
    `${letter}${alter === null ? '' : accidentalSign(alter)}${octave ?? ''}`,
  setting: (setting) => formatSetting(setting),
  tuning: tuningName,
  majorKey: (tonic) => `${spelledName(tonic)} major`,
};
