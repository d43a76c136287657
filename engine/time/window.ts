import { compare, type Rational } from '../music/rational.ts';

/** The span in which a move must be made. */
export interface MoveWindow {
  /** Id of the last note that needs the old position, and its onset; null where nothing needed it before. */
  readonly after: { readonly note: string; readonly onset: Rational } | null;
  /** Id of the first note that needs the new position, and its onset; null where it comes only after a jump. */
  readonly before: { readonly note: string; readonly onset: Rational } | null;
}

/**
 * The seconds from a move to the first note that needs it, read straight on; null where that note comes after a jump.
 *
 * @param secondsAt the clock at the written tempo, as `buildClock` gives it
 */
export const leadSecondsOf = (
  { at, window: { before } }: { readonly at: Rational; readonly window: MoveWindow },
  secondsAt: (at: Rational) => number,
): number | null =>
  before !== null && compare(before.onset, at) >= 0 ? secondsAt(before.onset) - secondsAt(at) : null;

/** What speaks against a moment for a move, in the unit of the weights. */
export interface CostTerm {
  readonly name: string;
  readonly amount: number;
}
