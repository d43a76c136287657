import type { FixKind, OfferedFix } from './model.ts';

/**
 * What one fix costs beside others, for the order in which they are offered: how much of the music is heard
 * otherwise, by our own judgement (no source). For notes, of each; for those that wait together, once; for a tempo, of each hundredth that it is slower.
 */
export const FIX_COST: Readonly<Record<FixKind, number>> = {
  respell: 1,
  octave: 4,
  'leave-out-doubled': 5,
  delay: 4,
  tempo: 0.4,
  'second-harp': 8,
  'leave-out': 12,
};

/**
 * Whether a fix stands before all others, however many notes it concerns: they sound the same, no other player is asked for,
 * and the feet have no more to do. Of the rest, that costs less comes first (common practice, no source).
 */
export const comesFirst = ({ kind, moreMoves }: Omit<Ranked, 'cost'>): boolean =>
  kind === 'respell' && moreMoves <= 0;

/** The order in which fixes are offered. */
export const compareOffers = (a: Ranked, b: Ranked): number =>
  Number(comesFirst(b)) - Number(comesFirst(a)) || a.cost - b.cost;

type Ranked = Pick<OfferedFix, 'kind' | 'cost' | 'moreMoves'>;

/**
 * Of each note left out that is the lowest then, though it is heard in another octave: the bass is missing. Where nothing else
 * gives it, of the highest too: the melody is.
 */
export const OUTER_COST = 4;

/** Of strings that ring no longer as they are written, or are heard to bend. */
export const DAMPED_COST = 1;

/** What each further place is worth that a fix makes playable as well: two places have one fix, and not one each. */
export const ALSO_FIXED_WORTH = 3;

/** Of each quarter that a note waits. */
export const WAITING_COST = 1;

/** Of each move that the plan then has more. */
export const MOVE_COST = 1.5;

/** Of each place with a warning that the plan then has more. */
export const WARNING_COST = 0.75;

/** Of each string without a disc that has to be tuned for it before the piece. */
export const TUNING_COST = 2;
