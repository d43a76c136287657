import { buildClock, type Move, type Plan, type Score } from '../../engine/index.ts';
import type { EngravingOptions } from '../engraving-options.ts';
import { findEarlyMoves } from './early-moves.ts';
import { type PrintedPlace, placeAtNotes } from './place-at-notes.ts';

/** Where the moves of a plan are printed. */
export interface PrintedMoves {
  readonly placeOf: (move: Move) => PrintedPlace;
  /** Those that stand where the foot makes them though the others stand at their notes. */
  readonly ahead: ReadonlySet<Move>;
}

/**
 * Prints each move where the foot moves, or at the note that needs it. There too it stands where the foot moves if it has
 * no time for all its pedals at the notes.
 */
export const printMoves = (score: Score, plan: Plan, marksAt: EngravingOptions['marksAt']): PrintedMoves => {
  if (marksAt === 'foot') return { placeOf: (move) => move, ahead: new Set() };
  const placeAtNote = placeAtNotes(score, plan);
  const ahead = findEarlyMoves(plan, placeAtNote, buildClock(score.tempo));
  return { placeOf: (move) => (ahead.has(move) ? move : placeAtNote(move)), ahead };
};
