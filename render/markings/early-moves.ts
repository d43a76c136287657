import {
  buildClock,
  compare,
  FEET,
  type Foot,
  type Move,
  type Plan,
  type Rational,
  rationalKey,
  type Score,
} from '../../engine/index.ts';
import type { EngravingOptions } from '../engraving-options.ts';
import { chooseMarkings, type Marking } from './markings.ts';
import { type PrintedPlace, placePrinted } from './printed-moves.ts';

/** A move that is made before the note at which it is printed, for want of time there. */
export interface EarlyMove {
  readonly move: Move;
  readonly printed: PrintedPlace;
}

/**
 * Where letters stand at the notes that need them, the moves that cannot wait until there; none where no letters do. A move
 * that a full setting tells of has no letter.
 *
 * @param reminders bars (indices) at whose start a setting is printed in any case
 */
export const earlyMovesOf = (
  score: Score,
  plan: Plan,
  engraving: EngravingOptions,
  reminders: readonly number[] = [],
): readonly EarlyMove[] => {
  if (engraving.marksAt === 'foot' || engraving.density === 'settings') return [];
  const placeOf = placePrinted(score, plan, engraving.marksAt);
  const early = findEarlyMoves(plan, placeOf, buildClock(score.tempo));
  return early.length === 0 ? [] : early.filter(hasLetter(chooseMarkings(score, plan, engraving, reminders)));
};

const hasLetter = (markings: readonly Marking[]): ((early: EarlyMove) => boolean) => {
  const letters = new Set(
    markings.flatMap((marking) =>
      marking.kind === 'setting'
        ? []
        : [...marking.left, ...marking.right].map(({ letter }) => `${letter} ${rationalKey(marking.at)}`),
    ),
  );
  return ({ move, printed }) => letters.has(`${move.letter} ${rationalKey(printed.at)}`);
};

/**
 * The moves for which a foot has to be early where letters stand at the notes: it has another pedal to move there, or
 * so shortly before or after that it has no time for both.
 */
const findEarlyMoves = (
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
