import type { Score } from '../../engine/index.ts';
import { printedBarNumber } from './bar-number.ts';

/** Of a score with several movements, whose bars are numbered anew, each bar has the number of its movement before its own. */
type Bars = Pick<Score, 'bars' | 'movements'>;

/** @example nameBarIn(score)(40) // '12', or 'II 12' in the second of several movements */
export const nameBarIn = (score: Bars): ((bar: number) => string) => {
  const numeralOf = movementNumerals(score);
  return (bar) => {
    const number = printedBarNumber(score.bars[bar]!.number);
    const numeral = numeralOf(bar);
    return numeral === '' ? number : `${numeral} ${number}`.trim();
  };
};

/** The numeral of the movement that each bar belongs to; empty where the score has only one. */
const movementNumerals = ({ movements }: Pick<Score, 'movements'>): ((bar: number) => string) => {
  if (movements.length === 0) return () => '';
  return (bar) => writeNumeral(1 + movements.filter((start) => start <= bar).length);
};

/** The numeral where a movement begins; empty elsewhere. */
export const openingNumerals = ({ bars, movements }: Bars): readonly string[] => {
  const numeralOf = movementNumerals({ movements });
  return bars.map(({ index }) => (index === 0 || movements.includes(index) ? numeralOf(index) : ''));
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
export const nameEndsIn = (score: Bars): ((from: number, until: number) => readonly [string, string]) => {
  const nameBar = nameBarIn(score);
  const numeralOf = movementNumerals(score);
  return (from, until) => {
    const [first, last] = [nameBar(from), nameBar(until)];
    const inOne = first !== last && numeralOf(from) === numeralOf(until);
    return [first, inOne ? printedBarNumber(score.bars[until]!.number) : last];
  };
};

/** The bars of a passage: `9–16`, in one of several movements `II 9–16`. */
export const nameSpanIn = (score: Bars): ((from: number, until: number) => string) => {
  const nameEnds = nameEndsIn(score);
  return (from, until) => {
    const [first, last] = nameEnds(from, until);
    return first === last ? first : `${first}–${last}`;
  };
};
