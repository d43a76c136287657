import type { EngravingOptions } from '../../engraving-options.ts';
import { isTurn, ONE_HAND, type RateTurn, turnCost } from './page-turns.ts';
import type { PageEnd } from './total-fit.ts';

/*
 * What makes one choice of breaks better than another: only the ratios count, and the unit is two pages that are full.
 * Chosen by looking at pages of real parts; no source.
 */

/** A line as it would be set. */
export interface LineShape {
  /** How many bars it shows. */
  readonly bars: number;
  /** Natural width as a share of the width that it is set to. */
  readonly natural: number;
  readonly isLast: boolean;
  readonly isFirst: boolean;
  /** Rehearsal marks that stand inside it. */
  readonly rehearsals: number;
}

/** Music set tighter than by nature runs into itself, and the measured width is only nearly that of the line. */
export const MOST_NATURAL = 1.02;

/** Share of the width from which on the layout stretches a last line to be full. */
const LEAST_STRETCHED = 0.8;

const STRETCH = 3;
const SQUEEZE = 400;
const LONE_BAR = 4;
const SHORT_LAST = 0.8;
const REHEARSAL_INSIDE = 0.3;
/** For a bar that is wider than a line: it has to stand somewhere. */
const TOO_WIDE = 10;

export const lineCost = (line: LineShape): number => {
  const { bars, isFirst, isLast, natural, rehearsals } = line;
  const marks = REHEARSAL_INSIDE * rehearsals;
  const lone = bars === 1 && isLast && !isFirst ? LONE_BAR : 0;
  return marks + lone + fillCost(natural, isLast);
};

const fillCost = (natural: number, isLast: boolean): number => {
  if (natural > MOST_NATURAL) return TOO_WIDE * natural;
  if (natural > 1) return SQUEEZE * (natural - 1) ** 2;
  if (isLast && natural < LEAST_STRETCHED)
    return STRETCH * (1 / LEAST_STRETCHED - 1) ** 2 + SHORT_LAST * (LEAST_STRETCHED - natural);
  return STRETCH * (1 / natural - 1) ** 2;
};

const PAGE = 0.5;
/** A last page with one line on it looks forgotten: the page before gives one of its lines, unless that leaves it thin. */
export const LONE_LINE = 1.4;
const LOOSE = 1.5;
const LOOSE_LAST = 0.5;

/**
 * A page that is emptier than so costs more. For a turn with both hands free it may be half as full; before one for which no
 * hand is free, white space promises time that is not there.
 */
const THIN_FILL = 0.6;
const THIN_FILL_TURN = 0.4;
const THIN_FILL_NO_HAND = 0.7;
const THIN = 0.5;
const THIN_SLOPE = 3;

/** @param turn what the turn at its end costs; null where it is not turned */
const leastFill = (turn: number | null): number => {
  if (turn === null || turn === ONE_HAND) return THIN_FILL;
  return turn < ONE_HAND ? THIN_FILL_TURN : THIN_FILL_NO_HAND;
};

const looseCost = (filled: number, turn: number | null): number => {
  const least = leastFill(turn);
  const thin = filled >= least ? 0 : THIN + THIN_SLOPE * (least - filled);
  return LOOSE * (1 - filled) ** 2 + thin;
};

/** What a page costs: that it is one more, the room that it leaves, and the turn at its end. */
export const pageCoster = (
  turns: EngravingOptions['pageTurns'],
  rate: RateTurn,
  barOf: (index: number) => number,
): ((page: PageEnd) => number) => {
  const known = new Map<number, number>();
  const turnAt = (index: number): number => {
    const cost = known.get(index) ?? turnCost(rate(barOf(index)));
    known.set(index, cost);
    return cost;
  };
  return ({ filled, isOdd, next }) => {
    if (next === null) return PAGE + LOOSE_LAST * (1 - filled) ** 2;
    const turn = isTurn(isOdd, turns) ? turnAt(next) : null;
    return PAGE + looseCost(filled, turn) + (turn ?? 0);
  };
};
