import {
  type DecisionPin,
  type Decisions,
  type Place,
  readFraction,
  type Side,
  toNumber,
} from '../../../../engine/index.ts';
import type { LeverPlanReport } from '../../../api/answers/lever-report.ts';
import { addDecision, dropDecision } from '../decisions/decision-edits.ts';
import { quartersTold } from '../decisions/places.ts';
import { type MoveBounds, pauseBounding } from '../planner/move-bounds.ts';
import { type Direction, stepAmong } from '../planner/moved-moment.ts';
import type { MomentPlace, ReadPart } from '../planner/planned-part.ts';
import { nearestAlike } from '../selection/nearest-alike.ts';

export type LeverMoves = LeverPlanReport['moves'];
export type LeverMove = LeverMoves[number];

export type LeverMovePin = Extract<DecisionPin, { readonly kind: 'lever-move' }>;

/** A score time of a report in quarters. */
export const quartersOf = (time: string): number => toNumber(readFraction(time)!);

/** Where a change is drawn, in quarters. */
export const changeQuarters = (part: Pick<ReadPart, 'bars'>, { at, ...told }: LeverMove): number =>
  quartersTold(part, told, quartersOf(at));

/** Where a change is made, as decisions name it. */
export const placeOfChange = ({ barIndex, beat }: LeverMove): Place => ({ barIndex, beat });

/** The same change in another plan: of this lever to this side, the nearest in time; null where there is none. */
export const followChange = (before: LeverMove | undefined, moves: LeverMoves): number | null => {
  if (before === undefined) return null;
  const from = quartersOf(before.at);
  return nearestAlike(
    moves,
    ({ string, to }) => string === before.string && to === before.to,
    ({ at }) => Math.abs(quartersOf(at) - from),
  );
};

/** What bounds a change. */
export const boundsOfChange = (moves: LeverMoves, change: number): MoveBounds => {
  const { string, at, graceNote, window, freedBy, neededBy } = moves[change]!;
  const boundBy = (time: string | null, note: string | null) =>
    time === null ? null : { note, quarters: quartersOf(time) };
  return {
    now: quartersOf(at),
    graceNote,
    after: boundBy(window.after, freedBy),
    before: boundBy(window.before, neededBy),
    own: moves.filter((move, i) => i !== change && move.string === string).map((move) => quartersOf(move.at)),
  };
};

/** The moments at which a change could be made: where the notes allow it, between the lever's own changes. */
export const allowedForChange = (
  part: Pick<ReadPart, 'moments' | 'bars'>,
  moves: LeverMoves,
  change: number,
): readonly MomentPlace[] => {
  const bounds = boundsOfChange(moves, change);
  const { now, own } = bounds;
  const after = Math.max(
    bounds.after?.quarters ?? Number.NEGATIVE_INFINITY,
    ...own.filter((quarters) => quarters < now),
  );
  // Before a movement all its changes can be made: none goes back into the movement before.
  const from = pauseBounding(part, bounds)?.onsetQuarters ?? 0;
  const before = bounds.before?.quarters ?? Number.POSITIVE_INFINITY;
  const next = Math.min(...own.filter((quarters) => quarters > now));
  return part.moments.filter(
    ({ quarters }) => quarters > after && quarters >= from && quarters <= before && quarters < next,
  );
};

/** The allowed moment just before or just after the one at which a change is made now; null where there is none. */
export const stepChange = (
  part: Pick<ReadPart, 'moments' | 'bars'>,
  moves: LeverMoves,
  change: number,
  direction: Direction,
): MomentPlace | null => {
  const { at, graceNote } = moves[change]!;
  return stepAmong(
    allowedForChange(part, moves, change),
    { now: quartersOf(at), graceNote: graceNote !== null },
    direction,
  );
};

/** The pin that has a change made at a place, by a hand where one is named. */
export const pinChange = ({ string, to }: LeverMove, at: Place, hand: Side | null): LeverMovePin => ({
  kind: 'lever-move',
  lever: string,
  to,
  at: { barIndex: at.barIndex, beat: at.beat },
  ...(hand === null ? {} : { hand }),
});

/** The pin that holds a change where it is; null where none does. */
export const pinOfChange = (decisions: Decisions, move: LeverMove): LeverMovePin | null => {
  const { barIndex, beat } = placeOfChange(move);
  const found = decisions.pins.find(
    (pin) =>
      pin.kind === 'lever-move' &&
      pin.lever === move.string &&
      pin.to === move.to &&
      pin.at.barIndex === barIndex &&
      pin.at.beat === beat,
  );
  return found?.kind === 'lever-move' ? found : null;
};

/** Has a change made at another place, or by another hand: its pin, if it has one, goes with it. */
export const makeChange = (
  decisions: Decisions,
  move: LeverMove,
  { at, hand }: { readonly at: Place; readonly hand?: Side },
): { readonly pin: LeverMovePin; readonly decisions: Decisions } => {
  const old = pinOfChange(decisions, move);
  const freed = old === null ? decisions : dropDecision(decisions, { kind: 'pin', pin: old });
  const pin = pinChange(move, at, hand ?? old?.hand ?? null);
  return { pin, decisions: addDecision(freed, { kind: 'pin', pin }) };
};
