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

export type Direction = 'earlier' | 'later';

/**
 * The allowed moment just before or just after one; null where there is none.
 *
 * @param now in quarters
 * @param graceNote whether it is made before a grace note: just before the moment of its onset, which is later
 */
export const stepAmong = (
  allowed: readonly MomentPlace[],
  { now, graceNote }: { readonly now: number; readonly graceNote: boolean },
  direction: Direction,
): MomentPlace | null => {
  if (direction === 'earlier') return allowed.findLast(({ quarters }) => quarters < now) ?? null;
  return allowed.find(({ quarters }) => quarters > now || (graceNote && quarters === now)) ?? null;
};

/** The allowed moment just before or just after the one at which the move is made now; null where there is none. */
export const stepMoment = (part: Movable, move: number, direction: Direction): MomentPlace | null => {
  const { at, graceNote } = part.plan.moves[move]!;
  return stepAmong(allowedFor(part, move), { now: toNumber(at), graceNote: graceNote !== null }, direction);
};
