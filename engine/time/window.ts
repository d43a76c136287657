import type { Rational } from '../music/rational.ts';

/** The span in which a move must be made. */
export interface Window {
  /** Id of the last note that needs the old position, and its onset; null where nothing needed it before. */
  readonly after: { readonly note: string; readonly onset: Rational } | null;
  /** Id of the first note that needs the new position, and its onset; null where it comes only after a jump. */
  readonly before: { readonly note: string; readonly onset: Rational } | null;
}

/** What speaks against a moment for a move, in the unit of the weights. */
export interface CostTerm {
  readonly name: string;
  readonly amount: number;
}
