import { buildClock, type Move, type Plan, type Score } from '../../engine/index.ts';
import type { EngravingOptions } from '../engraving-options.ts';
import { findEarlyMoves } from './early-moves.ts';
import { type PrintedPlace, placeAtNotes } from './place-at-notes.ts';

/**
 * Where each move of a plan is printed: where the foot moves, or at the note that needs it. There too it stands where the
 * foot moves if it has no time for all its pedals at the notes.
 */
export const placePrinted = (
  score: Score,
  plan: Plan,
  marksAt: EngravingOptions['marksAt'],
): ((move: Move) => PrintedPlace) => {
  if (marksAt === 'foot') return (move) => move;
  const placeOf = placeAtNotes(score, plan);
  const early = movesAheadOfNotes(score, plan);
  return (move) => (early.has(move) ? move : placeOf(move));
};

/** The moves that are told where the foot makes them though the others stand at their notes. */
export const movesAheadOfNotes = (score: Score, plan: Plan): ReadonlySet<Move> =>
  findEarlyMoves(plan, placeAtNotes(score, plan), buildClock(score.tempo));
