import {
  compare,
  isInPause,
  type Move,
  notesById,
  type Plan,
  type Rational,
  type Score,
} from '../../engine/index.ts';
import { jumpTimes } from './silences.ts';

/** Where a move is printed. */
export interface PrintedPlace {
  readonly at: Rational;
  /** Index into the score's bars. */
  readonly bar: number;
  readonly graceNote: string | null;
}

/**
 * The note that needs each move. What the music jumps between stays where the foot moves, and so do what is set between
 * two movements and what is for a player who comes back: who comes from elsewhere meets the note with the pedal set otherwise.
 */
export const placeAtNotes = (score: Score, plan: Plan): ((move: Move) => PrintedPlace) => {
  const notes = notesById(score.notes);
  const jumps = jumpTimes(score);
  const places = new Map(
    plan.moves.map((move): [Move, PrintedPlace] => {
      if (isInPause(score, move)) return [move, move];
      const needing = move.window.before === null ? undefined : notes.get(move.window.before.note);
      if (needing === undefined || move.restores || compare(needing.onset, move.at) < 0) return [move, move];
      const isParted = jumps.some((at) => compare(at, move.at) > 0 && compare(at, needing.onset) <= 0);
      if (isParted) return [move, move];
      const graceNote = needing.grace === null ? null : needing.id;
      return [move, { at: needing.onset, bar: needing.bar, graceNote }];
    }),
  );
  return (move) => places.get(move) ?? move;
};
