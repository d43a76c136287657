import type { CostTerm } from '../time/window.ts';
import type { Move } from './model.ts';

/** What costs less speaks against nothing: it is only the remainder of a price that fades. */
const LEAST_AMOUNT = 0.05;

/** What comes less long before its note is in good time, though the plan counts every second (common practice, no source). */
const LONG_AHEAD_SECONDS = 2;

/**
 * What a player is told that speaks against the moment of a move, the most first. What the plan counts is more: each
 * second that a move comes before its note has its price, from the first on.
 *
 * @param leadSeconds from the move to the note that needs it, as `leadSecondsOf` gives it; null where that note comes after a jump
 */
export const drawbacksOf = ({ cost }: Pick<Move, 'cost'>, leadSeconds: number | null): readonly CostTerm[] =>
  cost
    .filter(({ amount }) => amount >= LEAST_AMOUNT)
    .filter(({ name }) => name !== 'perSecondAhead' || (leadSeconds ?? 0) >= LONG_AHEAD_SECONDS)
    .toSorted((a, b) => b.amount - a.amount);
