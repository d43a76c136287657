import { isPosition, type Position } from '../harp/setting.ts';
import { isLetter, LETTERS, type Letter } from '../music/pitch.ts';
import { compare } from '../music/rational.ts';
import type { SourceMarking } from '../score/model.ts';
import type { PlacedNeed } from './choices.ts';
import type { Moments } from './moments.ts';
import type { Need } from './needs.ts';
import type { Pin } from './options.ts';

export type MovePin = Extract<Pin, { readonly kind: 'move' }>;

/** Pins as the solver takes them: positions by letter and moment, and moments at which no pedal may move. */
export interface PlacedPins {
  readonly positions: ReadonlyMap<Letter, ReadonlyMap<number, Position>>;
  readonly isForbidden: (moment: number) => boolean;
  /** Pins that cannot be honoured, with what they run into. */
  readonly conflicts: readonly PinConflict[];
}

export interface PinConflict {
  readonly pin: Exclude<Pin, { kind: 'forbid' }>;
  readonly reason:
    | { readonly kind: 'note'; readonly need: Need }
    | { readonly kind: 'pin'; readonly position: Position }
    | { readonly kind: 'no-moment' };
}

/**
 * Places the user's pins on the moments of a part.
 *
 * A pinned move stands at its moment: the moment before keeps the position of the last need or of a pinned position, so
 * that the pedal can move nowhere else. A pin that
 * contradicts a note or an earlier pin is left out and told.
 *
 * @param needs by letter, each in order of moment
 * @param idleFor where the pedal of a pinned move stands that nothing needs before; null where it may stand anywhere
 */
export const placePins = (
  pins: readonly Pin[],
  needs: ReadonlyMap<Letter, readonly PlacedNeed[]>,
  moments: Moments,
  idleFor: (pin: MovePin) => Position | null,
): PlacedPins => {
  const positions = new Map<Letter, Map<number, Position>>(LETTERS.map((letter) => [letter, new Map()]));
  const conflicts: PinConflict[] = [];
  const forbidden = new Set<number>();
  for (const pin of pins) {
    if (pin.kind === 'forbid') {
      moments.all.forEach(({ at }, moment) => {
        if (compare(at, pin.from) >= 0 && compare(at, pin.until) < 0) forbidden.add(moment);
      });
      continue;
    }
    const wanted =
      pin.kind === 'position'
        ? heldPositions(pin, moments)
        : movePositions(pin, standBefore(pin, pins, needs.get(pin.letter)!, moments, idleFor), moments);
    const conflict =
      wanted.size === 0 ? noMoment(pin) : findConflict(pin, wanted, needs.get(pin.letter)!, positions);
    if (conflict !== null) conflicts.push(conflict);
    else for (const [moment, position] of wanted) positions.get(pin.letter)!.set(moment, position);
  }
  return { positions, isForbidden: (moment) => forbidden.has(moment), conflicts };
};

const noMoment = (pin: PinConflict['pin']): PinConflict => ({ pin, reason: { kind: 'no-moment' } });

const heldPositions = (pin: Extract<Pin, { kind: 'position' }>, moments: Moments): Map<number, Position> =>
  new Map(
    moments.all.flatMap(({ at }, moment): [number, Position][] =>
      compare(at, pin.from) >= 0 && (pin.until === null || compare(at, pin.until) < 0)
        ? [[moment, pin.position]]
        : [],
    ),
  );

const movePositions = (pin: MovePin, before: Position | null, moments: Moments): Map<number, Position> => {
  const moment = momentOfPin(pin, moments);
  if (moment < 0) return new Map();
  const wanted = new Map([[moment, pin.position]]);
  if (moment > 0 && before !== null && before !== pin.position) wanted.set(moment - 1, before);
  return wanted;
};

/** The moment at which a pinned move is made; -1 where none falls there. */
export const momentOfPin = (pin: MovePin, moments: Moments): number =>
  moments.all.findIndex(({ at, grace }) => grace === 0 && compare(at, pin.at) === 0);

/**
 * Where the pedal of a pinned move stands before it: as the last note or pinned position has it; null where another
 * pinned move came last, which may be the same one stated again.
 */
const standBefore = (
  pin: MovePin,
  pins: readonly Pin[],
  needs: readonly PlacedNeed[],
  moments: Moments,
  idleFor: (pin: MovePin) => Position | null,
): Position | null => {
  const moment = momentOfPin(pin, moments);
  const need = needs.findLast((placed) => placed.moment < moment);
  const own = pins.filter(
    (other): other is PinConflict['pin'] => other.kind !== 'forbid' && other.letter === pin.letter,
  );
  const held = own.findLast(
    (other) => other.kind === 'position' && compare(other.from, pin.at) < 0 && !endsBefore(other, need),
  );
  if (held !== undefined) return held.position;
  if (need !== undefined) return need.need.position;
  const isFirst = !own.some((other) => other.kind === 'move' && compare(other.at, pin.at) < 0);
  return isFirst ? idleFor(pin) : null;
};

const endsBefore = ({ until }: Extract<Pin, { kind: 'position' }>, need: PlacedNeed | undefined): boolean =>
  until !== null && need !== undefined && compare(until, need.need.onset) <= 0;

const findConflict = (
  pin: PinConflict['pin'],
  wanted: ReadonlyMap<number, Position>,
  needs: readonly PlacedNeed[],
  known: ReadonlyMap<Letter, ReadonlyMap<number, Position>>,
): PinConflict | null => {
  for (const { need, moment } of needs) {
    const position = wanted.get(moment);
    if (position !== undefined && position !== need.position) return { pin, reason: { kind: 'note', need } };
  }
  for (const [moment, position] of wanted) {
    const earlier = known.get(pin.letter)!.get(moment);
    if (earlier !== undefined && earlier !== position)
      return { pin, reason: { kind: 'pin', position: earlier } };
  }
  return null;
};

/** The markings that a file holds, as pins: each stated position is a move to make where it stands. */
export const pinsFromMarkings = (markings: readonly SourceMarking[]): Pin[] =>
  markings.flatMap((marking) =>
    Object.entries(marking.positions).flatMap(([letter, position]): Pin[] =>
      isLetter(letter) && position !== undefined && isPosition(position)
        ? [{ kind: 'move', letter, position, at: marking.at }]
        : [],
    ),
  );
