import {
  buildClock,
  compare,
  FEET,
  type Foot,
  type Move,
  notesById,
  type Plan,
  type Rational,
  rationalKey,
  type Score,
} from '../../engine/index.ts';
import type { EngravingOptions } from '../engraving-options.ts';
import { jumpTimes } from './silences.ts';

/** Where a move is printed. */
export interface PrintedPlace {
  readonly at: Rational;
  /** Index into the score's bars. */
  readonly bar: number;
  readonly graceNote: string | null;
}

/**
 * Where each move of a plan is printed: where the foot moves, or at the note that needs it. What the music jumps between
 * stays where the foot moves, and so does what is for a player who comes back: who comes from elsewhere meets the note
 * with the pedal set otherwise.
 */
export const placePrinted = (
  score: Score,
  plan: Plan,
  marksAt: EngravingOptions['marksAt'],
): ((move: Move) => PrintedPlace) => {
  if (marksAt === 'foot') return (move) => move;
  const notes = notesById(score.notes);
  const jumps = jumpTimes(score);
  const places = new Map(
    plan.moves.map((move): [Move, PrintedPlace] => {
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

/** A move that is made before the note at which it is printed, for want of time there. */
export interface EarlyMove {
  readonly move: Move;
  readonly printed: PrintedPlace;
}

/** Where letters stand at the notes that need them, the moves that cannot wait until there; none where no letters do. */
export const earlyMovesOf = (
  score: Score,
  plan: Plan,
  { marksAt, density }: Pick<EngravingOptions, 'marksAt' | 'density'>,
): readonly EarlyMove[] =>
  marksAt === 'foot' || density === 'settings'
    ? []
    : findEarlyMoves(plan, placePrinted(score, plan, marksAt), buildClock(score.tempo));

/**
 * The moves for which a foot has to be early where letters stand at the notes: it has another pedal to move there, or
 * so shortly before or after that it has no time for both.
 */
export const findEarlyMoves = (
  { moves, footRestSeconds }: Plan,
  placeOf: (move: Move) => PrintedPlace,
  secondsAt: (at: Rational) => number,
): EarlyMove[] => {
  const printed = moves.map((move) => ({ move, printed: placeOf(move) }));
  return (Object.keys(FEET) as Foot[])
    .flatMap((foot) => {
      const own = printed
        .filter(({ move }) => move.foot === foot)
        .map((each) => ({ ...each, seconds: secondsAt(each.printed.at) }))
        .sort((a, b) => a.seconds - b.seconds);
      const isClose = (a: number, b: number): boolean =>
        own[a] !== undefined &&
        own[b] !== undefined &&
        own[b].seconds - own[a].seconds < footRestSeconds - EQUAL_SECONDS;
      return own.filter((each, i) => isEarly(each) && (isClose(i - 1, i) || isClose(i, i + 1)));
    })
    .map(({ move, printed: place }) => ({ move, printed: place }))
    .sort((a, b) => compare(a.printed.at, b.printed.at));
};

/** Times nearer than this are one. */
const EQUAL_SECONDS = 1e-6;

const isEarly = ({ move, printed }: EarlyMove): boolean =>
  rationalKey(move.at) !== rationalKey(printed.at) || move.graceNote !== printed.graceNote;
