import { POSITIONS, type Position, type Setting } from '../../../engine/harp/setting.ts';
import { LETTERS, type Letter } from '../../../engine/music/pitch.ts';
import { add, compare, type Rational, rational } from '../../../engine/music/rational.ts';
import type { SourceMarking } from '../../../engine/score/model/markings.ts';
import type { Score } from '../../../engine/score/model/score.ts';

/** A source of chance: whole numbers from 0 up to a bound, the same for the same seed. */
export type Draw = (bound: number) => number;

/** @param seed any whole number; a linear congruential generator (D. E. Knuth, MMIX; constants from memory) cut to 32 bits */
export const drawFrom = (seed: number): Draw => {
  let state = (seed * 2654435761 + 12345) >>> 0;
  return (bound) => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor((state / 2 ** 32) * bound);
  };
};

type Markings = readonly SourceMarking[];

interface Planting {
  readonly score: Score;
  readonly markings: Markings;
  readonly draw: Draw;
}

const lettersOf = ({ positions }: SourceMarking): Letter[] => Object.keys(positions) as Letter[];

const isSetting = (marking: SourceMarking): boolean => lettersOf(marking).length === LETTERS.length;

const pick = <T>(draw: Draw, from: readonly T[]): T | undefined => from[draw(from.length)];

/** A marking of words, or a setting that is not the first. */
const pickIndex = (
  { markings, draw }: Planting,
  wanted: (marking: SourceMarking, index: number) => boolean,
) =>
  pick(
    draw,
    markings.flatMap((marking, index) => (wanted(marking, index) ? [index] : [])),
  );

const isWords = (marking: SourceMarking): boolean => !isSetting(marking);

const inOrder = (markings: Markings): Markings => markings.toSorted((a, b) => compare(a.at, b.at));

const otherThan = (draw: Draw, position: Position): Position =>
  pick(
    draw,
    POSITIONS.filter((each) => each !== position),
  )!;

/** The marking said elsewhere, within the score. */
const shift = ({ score, markings }: Planting, index: number, by: Rational): Markings | null => {
  const marking = markings[index]!;
  const at = add(marking.at, by);
  const bar = score.bars.findLastIndex((each) => compare(each.onset, at) <= 0);
  const last = score.bars.at(-1)!;
  if (bar < 0 || compare(at, add(last.onset, last.duration)) >= 0) return null;
  // A second marking of one pedal at one place is a fault of its own kind.
  const isTaken = markings.some(
    (other) =>
      compare(other.at, at) === 0 &&
      lettersOf(other).some((letter) => marking.positions[letter] !== undefined),
  );
  return isTaken ? null : inOrder(markings.with(index, { ...marking, at, bar }));
};

const withPosition = (marking: SourceMarking, letter: Letter, position: Position): SourceMarking => ({
  ...marking,
  positions: { ...marking.positions, [letter]: position },
});

const renamed = (marking: SourceMarking, letter: Letter, to: Letter): SourceMarking => {
  const { [letter]: position, ...rest } = marking.positions;
  return { ...marking, positions: { ...rest, [to]: position! } };
};

const QUARTER = rational(1);

const times = (length: Rational, count: number): Rational => rational(length.num * count, length.den);

/** What goes wrong when markings are written, each a way to spoil one: null where nothing can be spoilt so. */
export const FAULT_KINDS = {
  'a marking left out': (planting: Planting): Markings | null => {
    const index = pickIndex(planting, isWords);
    return index === undefined ? null : planting.markings.toSpliced(index, 1);
  },
  'a name left out of a marking': (planting: Planting): Markings | null => {
    const index = pickIndex(planting, (marking) => isWords(marking) && lettersOf(marking).length > 1);
    if (index === undefined) return null;
    const marking = planting.markings[index]!;
    const { [pick(planting.draw, lettersOf(marking))!]: _, ...positions } = marking.positions;
    return planting.markings.with(index, { ...marking, positions });
  },
  'a wrong sign': (planting: Planting): Markings | null => {
    const index = pickIndex(planting, isWords);
    if (index === undefined) return null;
    const marking = planting.markings[index]!;
    const letter = pick(planting.draw, lettersOf(marking))!;
    return planting.markings.with(
      index,
      withPosition(marking, letter, otherThan(planting.draw, marking.positions[letter]!)),
    );
  },
  'a sign forgotten': (planting: Planting): Markings | null => {
    const index = pickIndex(
      planting,
      (marking) => isWords(marking) && Object.values(marking.positions).some((position) => position !== 0),
    );
    if (index === undefined) return null;
    const marking = planting.markings[index]!;
    const letter = lettersOf(marking).find((each) => marking.positions[each] !== 0)!;
    return planting.markings.with(index, withPosition(marking, letter, 0));
  },
  'a wrong letter': (planting: Planting): Markings | null => {
    const index = pickIndex(planting, isWords);
    if (index === undefined) return null;
    const marking = planting.markings[index]!;
    const to = pick(
      planting.draw,
      LETTERS.filter((letter) => marking.positions[letter] === undefined),
    )!;
    return planting.markings.with(index, renamed(marking, pick(planting.draw, lettersOf(marking))!, to));
  },
  'the pedal beside': (planting: Planting): Markings | null => {
    const index = pickIndex(planting, isWords);
    if (index === undefined) return null;
    const marking = planting.markings[index]!;
    const letter = pick(planting.draw, lettersOf(marking))!;
    const to = LETTERS[LETTERS.indexOf(letter) + 1];
    if (to === undefined || marking.positions[to] !== undefined) return null;
    return planting.markings.with(index, renamed(marking, letter, to));
  },
  'a beat late': (planting: Planting): Markings | null => {
    const index = pickIndex(planting, isWords);
    return index === undefined ? null : shift(planting, index, QUARTER);
  },
  'two beats early': (planting: Planting): Markings | null => {
    const index = pickIndex(planting, isWords);
    return index === undefined ? null : shift(planting, index, times(QUARTER, -2));
  },
  'a bar late': (planting: Planting): Markings | null => {
    const index = pickIndex(planting, isWords);
    if (index === undefined) return null;
    return shift(planting, index, planting.score.bars[planting.markings[index]!.bar]!.duration);
  },
  'a bar early': (planting: Planting): Markings | null => {
    const index = pickIndex(planting, isWords);
    if (index === undefined) return null;
    return shift(planting, index, times(planting.score.bars[planting.markings[index]!.bar]!.duration, -1));
  },
  'a marking too many': (planting: Planting): Markings | null => {
    const { score, markings, draw } = planting;
    const bar = pick(draw, score.bars)!;
    const letter = pick(draw, LETTERS)!;
    if (markings.some(({ at, positions }) => compare(at, bar.onset) === 0 && positions[letter] !== undefined))
      return null;
    const positions = { [letter]: pick(draw, POSITIONS)! };
    return inOrder([...markings, { ...NOWHERE, at: bar.onset, bar: bar.index, positions }]);
  },
  'two signs for one pedal': (planting: Planting): Markings | null => {
    const index = pickIndex(planting, isWords);
    if (index === undefined) return null;
    const { at, bar, positions } = planting.markings[index]!;
    const letter = lettersOf(planting.markings[index]!)[0]!;
    const second = { [letter]: otherThan(planting.draw, positions[letter]!) };
    return planting.markings.toSpliced(index + 1, 0, { ...NOWHERE, at, bar, positions: second });
  },
  'a wrong entry of a setting': (planting: Planting): Markings | null => {
    const index = pickIndex(planting, isSetting);
    if (index === undefined) return null;
    const marking = planting.markings[index]!;
    const letter = pick(planting.draw, LETTERS)!;
    const position = (marking.positions as Setting)[letter];
    return planting.markings.with(index, withPosition(marking, letter, otherThan(planting.draw, position)));
  },
  'a setting left out or out of place': (planting: Planting): Markings | null => {
    const index = pickIndex(planting, isSetting);
    if (index === undefined) return null;
    if (planting.draw(2) === 0) return planting.markings.toSpliced(index, 1);
    return shift(planting, index, planting.score.bars[planting.markings[index]!.bar]!.duration);
  },
} as const;

const NOWHERE: Pick<SourceMarking, 'span' | 'form' | 'ahead' | 'text'> = {
  span: { start: 0, end: 0 },
  form: 'words',
  ahead: false,
  text: '',
};

export type FaultKind = keyof typeof FAULT_KINDS;

/** Markings with faults in them, and the kinds that were planted. */
export interface Spoilt {
  readonly markings: Markings;
  readonly planted: readonly FaultKind[];
}

/** Plants some faults at random places, one after the other. */
export const plantFaults = (score: Score, markings: Markings, count: number, draw: Draw): Spoilt => {
  const kinds = Object.keys(FAULT_KINDS) as FaultKind[];
  const planted: FaultKind[] = [];
  let spoilt = markings;
  for (let tries = 0; planted.length < count && tries < 50; tries += 1) {
    const kind = pick(draw, kinds)!;
    const next = FAULT_KINDS[kind]({ score, markings: spoilt, draw });
    if (next === null) continue;
    spoilt = next;
    planted.push(kind);
  }
  return { markings: spoilt, planted };
};
