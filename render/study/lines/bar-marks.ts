import { group } from 'd3-array';
import {
  type Bar,
  isShortBar,
  type Jump,
  LETTERS,
  type Move,
  openingNumerals,
  POSITIONS,
  type Score,
} from '../../../engine/index.ts';
import { barsWithNotes } from '../../markings/bars-with-notes.ts';
import type { NoteNaming } from '../../markings/note-names.ts';
import { nameChange } from '../../sheets/note-words.ts';
import { letteringsOf, type Sheet } from '../../sheets/sheet.ts';
import { shortenWords, widthOfWords } from '../../sheets/words.ts';
import type { Placed, Stretch } from './columns.ts';

/** A bar as lines of bars name it. */
export interface BarMark<M extends Placed = Move> {
  readonly number: string;
  /** The movement that begins with it, and its rehearsal mark, cut where it is long; empty for none. */
  readonly rehearsal: string;
  readonly moves: readonly M[];
  /** How wide a bar must be for its names not to run into those of the next, in ems. */
  readonly leastEm: number;
  /** Of what ends it and sends players elsewhere, the width; 0 for none. */
  readonly leavesEm: number;
  /** The same where it stands for several, by their first and last number. */
  readonly rangeEm: number;
  /** The harp does not play in it. */
  readonly silent: boolean;
  readonly repeat: RepeatSigns;
  /** A pupil counts it as a bar; an upbeat with the number 0 is none, nor is the rest of a divided bar. */
  readonly isCounted: boolean;
}

/** The signs at a bar that send the player elsewhere, as the part has them. */
export interface RepeatSigns {
  readonly starts: boolean;
  readonly ends: boolean;
  /** The ending that it stands under: `1.`; empty where it stands under none. */
  readonly ending: string;
  /** Where players come to from elsewhere: the signs of a segno and a coda at its beginning; empty for none. */
  readonly arrives: string;
  /** What ends it and sends players elsewhere: `D.C. al Fine`, the sign of the coda, `Fine`; empty for none. */
  readonly leaves: string;
  /** Whether a repeat or an ending begins with it or players come to it from elsewhere, or one ended, or they left, before it. */
  readonly parts: boolean;
}

const repeatSignsOf = (bar: Bar, before: Bar | undefined, tellJump: TellJump): RepeatSigns => {
  const { start, endTimes } = bar.repeat;
  const ending = nameEnding(bar);
  const signs = jumpSignsOf(bar, tellJump);
  const endedBefore =
    before !== undefined &&
    (before.repeat.endTimes > 0 ||
      nameEnding(before) !== ending ||
      jumpSignsOf(before, tellJump).leaves !== '');
  return {
    ...{ starts: start, ends: endTimes > 0, ending },
    ...signs,
    parts: start || endedBefore || signs.arrives !== '',
  };
};

type TellJump = (jump: Jump) => string;

const jumpSignsOf = (
  { repeat: { jumps } }: Bar,
  tellJump: TellJump,
): Pick<RepeatSigns, 'arrives' | 'leaves'> => {
  const arrives = jumps.filter(({ kind }) => kind === 'segno' || kind === 'coda');
  const leaves = jumps.filter((jump) => !arrives.includes(jump));
  const told = (some: readonly Jump[]): string => [...new Set(some.map(tellJump))].join(' ');
  return { arrives: told(arrives), leaves: told(leaves) };
};

const SEGNO = '\u{1d10b}';
const CODA = '\u{1d10c}';

/** The signs of jumps as parts have them in every language; where the player leaves for the coda its sign stands too. */
const jumpTeller = ({ bars }: Pick<Score, 'bars'>): TellJump => {
  const has = (kind: Jump['kind']): boolean =>
    bars.some(({ repeat }) => repeat.jumps.some((jump) => jump.kind === kind));
  const until = has('to-coda') ? ' al Coda' : has('fine') ? ' al Fine' : '';
  const signs: Readonly<Record<Jump['kind'], string>> = {
    segno: SEGNO,
    coda: CODA,
    'to-coda': CODA,
    'da-capo': `D.C.${until}`,
    'dal-segno': `D.S.${until}`,
    fine: 'Fine',
  };
  return ({ kind }) => signs[kind];
};

const nameEnding = ({ repeat: { endings } }: Bar): string => endings.map((each) => `${each}.`).join(' ');

/** How many bars a stretch is counted as, as their printed numbers have it. */
export const countedIn = (
  marks: readonly Pick<BarMark, 'isCounted'>[],
  { from, until }: Pick<Stretch, 'from' | 'until'>,
): number => marks.slice(from, until + 1).filter(({ isCounted }) => isCounted).length;

/** The numbers of the bars of a stretch. */
export const numbersOf = (
  marks: readonly Pick<BarMark, 'number'>[],
  { from, until }: Pick<Stretch, 'from' | 'until'>,
): string => {
  const [first, last] = [marks[from]!.number, marks[until]!.number];
  return first === last ? first : `${first}–${last}`;
};

/** The number of an upbeat in a file that numbers its first full bar 1. */
const UPBEAT = '0';

const LONGEST_REHEARSAL_EM = 9;
const BETWEEN_NAMES_EM = 0.8;
const DASH_EM = 0.5;
/** From a rehearsal mark or the number of an ending to the sign of a jump. */
export const BETWEEN_SIGNS_EM = 0.6;

/** What is told of each bar of the score. */
export const markBars = <M extends Placed>(
  score: Score,
  { moves: made }: { readonly moves: readonly M[] },
  sheet: Sheet,
): readonly BarMark<M>[] => {
  const { small, strong } = letteringsOf(sheet);
  const moves = group(made, ({ bar }) => bar);
  const rehearsals = group(
    score.landmarks.filter(({ kind }) => kind === 'rehearsal'),
    ({ bar }) => bar,
  );
  const numerals = openingNumerals(score);
  const played = barsWithNotes(score);
  const tellJump = jumpTeller(score);
  const widest = Math.max(0, ...score.bars.map(({ number }) => widthOfWords(number, small))) / sheet.emMm;
  const rangeEm = 2 * widest + DASH_EM + BETWEEN_NAMES_EM;
  return score.bars.map((bar) => {
    const number = bar.number;
    const marks = [numerals[bar.index]!, ...(rehearsals.get(bar.index) ?? []).map(({ text }) => text)];
    const told = marks.filter((each) => each !== '').join(', ');
    const rehearsal = shortenWords(told, LONGEST_REHEARSAL_EM * sheet.emMm, strong);
    const repeat = repeatSignsOf(bar, score.bars[bar.index - 1], tellJump);
    const roomEm = (words: string): number =>
      words === '' ? 0 : widthOfWords(words, strong) / sheet.emMm + BETWEEN_SIGNS_EM;
    const leavesEm = roomEm(repeat.leaves);
    const above = [rehearsal, repeat.parts ? repeat.ending : ''].map((each) => widthOfWords(each, strong));
    const wideEm = (above[0]! + above[1]!) / sheet.emMm + roomEm(repeat.arrives) + leavesEm;
    const wide = Math.max(widthOfWords(number, small) / sheet.emMm, wideEm);
    return {
      number,
      rehearsal,
      moves: moves.get(bar.index) ?? [],
      leastEm: wide === 0 ? 0 : wide + BETWEEN_NAMES_EM,
      rangeEm,
      leavesEm,
      silent: !played.has(bar.index),
      repeat,
      isCounted: !(
        isShortBar(bar) &&
        (number === UPBEAT || bar.number === score.bars[bar.index - 1]?.number)
      ),
    };
  });
};

/** How wide the widest name of a pedal in a position is, in ems. */
export const widestChangeEm = (naming: NoteNaming, sheet: Sheet): number => {
  const { smallStrong } = letteringsOf(sheet);
  const names = LETTERS.flatMap((letter) =>
    POSITIONS.map((position) => nameChange(letter, position, naming)),
  );
  return Math.max(...names.map((name) => widthOfWords(name, smallStrong))) / sheet.emMm;
};
