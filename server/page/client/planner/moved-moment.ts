import { toNumber } from '../../../../engine/index.ts';
import type { MomentPlace, PlannedPart } from './planned-part.ts';

type Movable = Pick<PlannedPart, 'moments' | 'plan' | 'ranges'>;

/** The moments at which a move could be made, in order of time. */
export const allowedFor = ({ moments, ranges }: Movable, move: number): readonly MomentPlace[] => {
  const range = ranges[move];
  return range === undefined ? [] : moments.slice(range.first, range.end);
};

/** The allowed moment nearest to a score time in quarters, the earlier of two; null where none is allowed. */
export const nearestMoment = (allowed: readonly MomentPlace[], quarters: number): MomentPlace | null =>
  allowed.reduce<MomentPlace | null>(
    (best, each) =>
      best !== null && Math.abs(best.quarters - quarters) <= Math.abs(each.quarters - quarters) ? best : each,
    null,
  );

/** The allowed moment just before or just after the one at which the move is made now; null where there is none. */
export const stepMoment = (
  part: Movable,
  move: number,
  direction: 'earlier' | 'later',
): MomentPlace | null => {
  const { at, graceNote } = part.plan.moves[move]!;
  const now = toNumber(at);
  const allowed = allowedFor(part, move);
  if (direction === 'earlier') return allowed.findLast(({ quarters }) => quarters < now) ?? null;
  // A move before a grace note is made just before the moment of its onset.
  return allowed.find(({ quarters }) => quarters > now || (graceNote !== null && quarters === now)) ?? null;
};
