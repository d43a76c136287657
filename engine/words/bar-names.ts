import { perObject } from '../memoize.ts';
import { listFirst } from './lists.ts';

/** Bars by their printed numbers, and the indices of those at which movements after the first begin. */
export interface NumberedBars {
  readonly bars: readonly { readonly number: string }[];
  readonly movements: readonly number[];
}

/**
 * The movements after the first, as indices of the bars at which they begin, where bars have to be named by them: since
 * they are numbered anew. None where the numbers alone tell the bars apart.
 */
export const namedMovements: (score: NumberedBars) => readonly number[] = perObject(({ bars, movements }) => {
  const numbers = [0, ...movements].map(
    (start, i) => new Set(bars.slice(start, movements[i]).map(({ number }) => number)),
  );
  const all = new Set(numbers.flatMap((each) => [...each]));
  const isAnew = all.size < numbers.reduce((sum, { size }) => sum + size, 0);
  return isAnew ? movements : [];
});

/**
 * The names by which people are told of bars: their printed numbers, behind the number of their movement where a score
 * has several whose bars are numbered anew.
 *
 * @example nameBarIn(score)(40) // '12', or 'II 12' in the second of several movements
 */
export const nameBarIn: (score: NumberedBars) => (bar: number) => string = perObject((score) => {
  const numeralOf = numeralsBy(namedMovements(score));
  return (bar) => `${numeralOf(bar)} ${score.bars[bar]!.number}`.trim();
});

/** The name of a bar that may no longer be there: then it is told by its place among the bars. */
export const nameBarOrCount = (score: NumberedBars, bar: number): string =>
  score.bars[bar] === undefined ? `${bar + 1}` : nameBarIn(score)(bar);

/** The numeral of the movement that each bar belongs to; empty where the score has only one. */
const numeralsBy = (movements: readonly number[]): ((bar: number) => string) =>
  movements.length === 0
    ? () => ''
    : (bar) => writeNumeral(1 + movements.filter((start) => start <= bar).length);

/** The numeral where a movement begins; empty elsewhere. */
export const openingNumerals = ({ bars, movements }: NumberedBars): readonly string[] => {
  const numeralOf = numeralsBy(movements);
  return bars.map((_, bar) => (bar === 0 || movements.includes(bar) ? numeralOf(bar) : ''));
};

const ROMAN = [
  [100, 'C'],
  [90, 'XC'],
  [50, 'L'],
  [40, 'XL'],
  [10, 'X'],
  [9, 'IX'],
  [5, 'V'],
  [4, 'IV'],
  [1, 'I'],
] as const;

/** A number from 1 in Roman figures. */
export const writeNumeral = (number: number): string => {
  const [value, figure] = ROMAN.find(([each]) => each <= number)!;
  return number === value ? figure : `${figure}${writeNumeral(number - value)}`;
};

/**
 * The first and the last bar of a passage as they are named together: the same where it has one number, and the movement
 * twice only where they belong to two.
 */
export const nameEndsIn = (
  score: NumberedBars,
): ((from: number, until: number) => readonly [string, string]) => {
  const nameBar = nameBarIn(score);
  const numeralOf = numeralsBy(namedMovements(score));
  return (from, until) => {
    const [first, last] = [nameBar(from), nameBar(until)];
    const inOne = first !== last && numeralOf(from) === numeralOf(until);
    return [first, inOne ? score.bars[until]!.number : last];
  };
};

/** The bars of a passage: `9–16`, in one of several movements `II 9–16`. */
export const nameSpanIn = (score: NumberedBars): ((from: number, until: number) => string) => {
  const nameEnds = nameEndsIn(score);
  return (from, until) => {
    const [first, last] = nameEnds(from, until);
    return first === last ? first : `${first}–${last}`;
  };
};

/** Bars by the names of the first and the last of each run of them. */
export interface BarRun {
  readonly from: string;
  readonly until: string;
}

/** Where bars stand one after the other, the first and the last of them. The bars are indices in order, each once. */
const runsOf = (bars: readonly number[]): readonly (readonly [from: number, until: number])[] => {
  const ends = bars.filter((bar, i) => bars[i + 1] !== bar + 1);
  return bars.filter((bar, i) => i === 0 || bars[i - 1] !== bar - 1).map((bar, i) => [bar, ends[i]!]);
};

/** Bars one after the other as runs. The bars are indices in order, each once. */
export const nameRunsIn = (score: NumberedBars): ((bars: readonly number[]) => readonly BarRun[]) => {
  const nameEnds = nameEndsIn(score);
  return (bars) =>
    runsOf(bars).map((run) => {
      const [from, until] = nameEnds(...run);
      return { from, until };
    });
};

/** Bars in words, those one after the other together: `bars 3–5 and 9`. */
export const listRunsIn = (score: NumberedBars): ((bars: readonly number[]) => string) => {
  const nameSpan = nameSpanIn(score);
  return (bars) => {
    const names = runsOf(bars).map((run) => nameSpan(...run));
    return `${bars.length === 1 ? 'bar' : 'bars'} ${listFirst(names, MOST_NAMED)}`;
  };
};

/** As many runs as a sentence names. */
const MOST_NAMED = 8;
