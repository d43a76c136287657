import { FEET, type Foot, type Move, type Plan, type Rational, rationalKey } from '../../engine/index.ts';
import type { PrintedPlace } from './place-at-notes.ts';

/**
 * The moves that cannot wait for their notes: there the foot has another pedal to move, or has one so shortly before or
 * after that it has no time for both. What is made where the plan has it leaves each foot its time.
 *
 * @param placeAtNote where a move would be printed at the note that needs it
 */
export const findEarlyMoves = (
  { moves, footRestSeconds }: Plan,
  placeAtNote: (move: Move) => PrintedPlace,
  secondsAt: (at: Rational) => number,
): ReadonlySet<Move> => {
  const early = new Set<Move>();
  const secondsOf = (move: Move): number => secondsAt((early.has(move) ? move : placeAtNote(move)).at);
  for (const foot of Object.keys(FEET) as Foot[]) {
    const waiting = moves.filter((move) => move.foot === foot && waitsForNote(move, placeAtNote(move)));
    for (let before = -1; before < early.size; ) {
      before = early.size;
      const crowded = crowdedMoves(
        moves.filter((move) => move.foot === foot),
        secondsOf,
        footRestSeconds,
      );
      for (const move of waiting) if (crowded.has(move)) early.add(move);
    }
  }
  return early;
};

const waitsForNote = (move: Move, atNote: PrintedPlace): boolean =>
  rationalKey(move.at) !== rationalKey(atNote.at) || move.graceNote !== atNote.graceNote;

/** Times nearer than this are one. */
const EQUAL_SECONDS = 1e-6;

/** Moves of a foot between which it has no time. */
const crowdedMoves = (
  own: readonly Move[],
  secondsOf: (move: Move) => number,
  restSeconds: number,
): ReadonlySet<Move> => {
  const inOrder = own
    .map((move) => ({ move, seconds: secondsOf(move) }))
    .sort((a, b) => a.seconds - b.seconds);
  return new Set(
    inOrder.flatMap(({ move, seconds }, i) => {
      const next = inOrder[i + 1];
      return next !== undefined && next.seconds - seconds < restSeconds - EQUAL_SECONDS
        ? [move, next.move]
        : [];
    }),
  );
};
