import type { FixKind } from './model.ts';

/**
 * What one fix costs beside others, for the order in which they are offered: how much of the music is heard
 * otherwise, by our own judgement (no source). For notes, of each, waiting ones included; for a tempo, of each hundredth that it is slower.
 */
export const FIX_COST: Readonly<Record<FixKind, number>> = {
  respell: 1,
  octave: 4,
  'leave-out-doubled': 5,
  delay: 3,
  tempo: 0.4,
  'second-harp': 8,
  'leave-out': 12,
};

/** Of each quarter that a note waits. */
export const WAITING_COST = 1;

/** Of each move that the plan then has more. */
export const MOVE_COST = 0.5;

/** Of each place with a warning that the plan then has more. */
export const WARNING_COST = 0.5;

/** Of each string without a disc that has to be tuned for it before the piece. */
export const TUNING_COST = 2;
