import type { LeverMovePin, LeverPin, LeverPositionPin } from '../../harp/lever-pin.ts';
import type { LeverHarpProfile } from '../../harp/lever-profile.ts';
import { isFixedString, isInRange } from '../../harp/profile.ts';
import type { Side } from '../../harp/side.ts';
import { stepOf } from '../../music/pitch.ts';
import { compare, type Rational } from '../../music/rational.ts';
import { type Moments, momentAt } from '../../time/moments.ts';
import { placeInPause } from './place-in-pause.ts';
import type { LeverNeed, PlacedLeverNeed } from './strings.ts';

/** Pins as the planner takes them. Strings are told by their steps (see `stepOf`). */
export interface PinnedLevers {
  readonly positions: ReadonlyMap<number, ReadonlyMap<number, 0 | 1>>;
  /** The hand that has to set a lever at a moment. */
  readonly hands: ReadonlyMap<number, ReadonlyMap<number, Side>>;
  readonly isForbidden: (moment: number) => boolean;
  /** Pins that cannot be honoured, with what they run into. */
  readonly conflicts: readonly LeverPinConflict[];
}

export interface LeverPinConflict {
  readonly pin: LeverMovePin | LeverPositionPin;
  readonly reason:
    | { readonly kind: 'note'; readonly need: LeverNeed }
    | { readonly kind: 'pin' | 'no-moment' | 'no-lever' };
}

const NO_PINS: PinnedLevers = {
  positions: new Map(),
  hands: new Map(),
  isForbidden: () => false,
  conflicts: [],
};

/**
 * Places the user's pins on the moments of a part.
 *
 * A pinned change stands at its moment: just before, the lever stands the other way, so that it can be set nowhere
 * else, unless a note or a pin before has it there already. A pin that contradicts a note or an earlier pin is left out
 * and told.
 *
 * @param needs by step of their string, each in order of moment
 */
export const placeLeverPins = (
  pins: readonly LeverPin[],
  needs: ReadonlyMap<number, readonly PlacedLeverNeed[]>,
  moments: Moments,
  profile: LeverHarpProfile,
): PinnedLevers => {
  if (pins.length === 0) return NO_PINS;
  const positions = new Map<number, Map<number, 0 | 1>>();
  const hands = new Map<number, Map<number, Side>>();
  const forbidden = new Set<number>();
  const conflicts: LeverPinConflict[] = [];
  for (const pin of pins) {
    if (pin.kind === 'forbid') {
      for (const moment of momentsWithin(pin, moments)) forbidden.add(moment);
      continue;
    }
    const step = stepOf(pin.string);
    const own = needs.get(step) ?? [];
    const known = positions.get(step) ?? new Map<number, 0 | 1>();
    const wanted = pin.kind === 'lever-position' ? held(pin, moments) : moved(pin, moments, own, known);
    const reason = findConflict(pin, wanted, own, known, profile);
    if (reason !== null) {
      conflicts.push({ pin, reason });
      continue;
    }
    positions.set(step, new Map([...known, ...wanted]));
    if (pin.kind === 'lever-move' && pin.hand !== null) {
      const moment = momentOfLeverPin(pin, moments);
      hands.set(step, new Map([...(hands.get(step) ?? []), [moment, pin.hand]]));
    }
  }
  return { positions, hands, isForbidden: (moment) => forbidden.has(moment), conflicts };
};

const positionOf = ({ to }: LeverMovePin | LeverPositionPin): 0 | 1 => (to === 'up' ? 1 : 0);

const momentsWithin = (
  { from, until }: { readonly from: Rational; readonly until: Rational | null },
  { all, firstFrom }: Moments,
): number[] => {
  const first = firstFrom(from);
  return all.flatMap(({ at }, moment) =>
    moment >= first && (until === null || compare(at, until) < 0) ? [moment] : [],
  );
};

const held = (pin: LeverPositionPin, moments: Moments): Map<number, 0 | 1> =>
  new Map(momentsWithin(pin, moments).map((moment) => [moment, positionOf(pin)]));

const moved = (
  pin: LeverMovePin,
  moments: Moments,
  needs: readonly PlacedLeverNeed[],
  known: ReadonlyMap<number, 0 | 1>,
): Map<number, 0 | 1> => {
  const moment = momentOfLeverPin(pin, moments);
  if (moment < 0) return new Map();
  const to = positionOf(pin);
  const before = known.get(moment - 1) ?? needs.findLast((each) => each.moment < moment)?.need.position;
  const isThere = before === to;
  return new Map<number, 0 | 1>([
    ...(moment > 0 && !isThere ? ([[moment - 1, to === 1 ? 0 : 1]] as const) : []),
    [moment, to],
  ]);
};

/** The moment at which a pinned change is made; -1 where none falls there. */
export const momentOfLeverPin = ({ at, string }: LeverMovePin, moments: Moments): number =>
  momentAt(at, placeInPause(string), moments);

const findConflict = (
  { string }: LeverPinConflict['pin'],
  wanted: ReadonlyMap<number, 0 | 1>,
  needs: readonly PlacedLeverNeed[],
  known: ReadonlyMap<number, 0 | 1>,
  profile: LeverHarpProfile,
): LeverPinConflict['reason'] | null => {
  if (!isInRange(profile, string) || isFixedString(profile, string)) return { kind: 'no-lever' };
  if (wanted.size === 0) return { kind: 'no-moment' };
  const contradicting = needs.find(
    ({ need, moment }) => (wanted.get(moment) ?? need.position) !== need.position,
  );
  if (contradicting !== undefined) return { kind: 'note', need: contradicting.need };
  const isTaken = [...wanted].some(([moment, position]) => (known.get(moment) ?? position) !== position);
  return isTaken ? { kind: 'pin' } : null;
};
