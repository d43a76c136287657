import type { MovePin, Pin, PositionPin } from '../harp/pin.ts';
import { isPosition, type Position } from '../harp/setting.ts';
import { isLetter, LETTERS, type Letter } from '../music/pitch.ts';
import { compare, type Rational } from '../music/rational.ts';
import type { SourceMarking } from '../score/model/markings.ts';
import type { Need } from '../sounding/needs.ts';
import type { PlacedNeed } from '../sounding/placed-needs.ts';
import { type Moments, momentAt } from '../time/moments.ts';
import { placeInPause } from './course/place-in-pause.ts';

/** Pins as the solver takes them: positions by letter and moment, and moments at which no pedal may move. */
export interface PinnedMoments {
  readonly positions: ReadonlyMap<Letter, ReadonlyMap<number, Position>>;
  readonly forbidden: ReadonlySet<number>;
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
 * that the pedal can move nowhere else. A pin that contradicts a note or an earlier pin is left out and told.
 *
 * @param needs by letter, each in order of moment
 * @param idleFor where the pedal of a pinned move stands that nothing needs before; null where it may stand anywhere
 */
export const placePins = (
  pins: readonly Pin[],
  needs: ReadonlyMap<Letter, readonly PlacedNeed[]>,
  moments: Moments,
  idleFor: (pin: MovePin) => Position | null,
): PinnedMoments => {
  const positions = new Map<Letter, Map<number, Position>>(LETTERS.map((letter) => [letter, new Map()]));
  const conflicts: PinConflict[] = [];
  const forbidden = new Set<number>();
  const own = new Map(LETTERS.map((letter) => [letter, ownPinsOf(letter, pins)]));
  for (const pin of pins) {
    if (pin.kind === 'forbid') {
      for (const moment of momentsIn(pin, moments)) forbidden.add(moment);
      continue;
    }
    const wanted =
      pin.kind === 'position'
        ? heldPositions(pin, moments)
        : movePositions(pin, moments, (moment) => {
            const last = needs.get(pin.letter)!.findLast((placed) => placed.moment < moment);
            return positionBefore(pin, own.get(pin.letter)!, last?.need, idleFor);
          });
    const conflict =
      wanted.size === 0 ? noMoment(pin) : findConflict(pin, wanted, needs.get(pin.letter)!, positions);
    if (conflict !== null) conflicts.push(conflict);
    else for (const [moment, position] of wanted) positions.get(pin.letter)!.set(moment, position);
  }
  return { positions, forbidden, conflicts };
};

const noMoment = (pin: PinConflict['pin']): PinConflict => ({ pin, reason: { kind: 'no-moment' } });

const heldPositions = (pin: PositionPin, moments: Moments): Map<number, Position> =>
  new Map(momentsIn(pin, moments).map((moment) => [moment, pin.position]));

/** The moments from one time until just before another, or to the end. */
const momentsIn = (
  { from, until }: { readonly from: Rational; readonly until: Rational | null },
  { all, firstFrom, lastBefore }: Moments,
): readonly number[] => {
  const first = firstFrom(from);
  const last = until === null ? all.length - 1 : lastBefore(until);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => first + i);
};

const movePositions = (
  pin: MovePin,
  moments: Moments,
  standsBefore: (moment: number) => Position | null,
): Map<number, Position> => {
  const moment = momentOfPin(pin, moments);
  if (moment < 0) return new Map();
  const before = standsBefore(moment);
  const wanted = new Map([[moment, pin.position]]);
  if (moment > 0 && before !== null && before !== pin.position) wanted.set(moment - 1, before);
  return wanted;
};

/** The moment at which a pinned move is made; -1 where none falls there. */
export const momentOfPin = ({ at, letter }: MovePin, moments: Moments): number =>
  momentAt(at, placeInPause(letter), moments);

/**
 * Where the pedal of a pinned move stands before it: as the last note or pinned position has it; null where another
 * pinned move came last, which may be the same one stated again.
 *
 * @param own pins of the pedal
 * @param need the last before the move
 */
const positionBefore = (
  pin: MovePin,
  own: OwnPins,
  need: Need | undefined,
  idleFor: (pin: MovePin) => Position | null,
): Position | null => {
  const held = own.held.findLast(({ from, until }) => {
    const isOver = until !== null && need !== undefined && compare(until, need.onset) <= 0;
    return compare(from, pin.at) < 0 && !isOver;
  });
  if (held !== undefined) return held.position;
  if (need !== undefined) return need.position;
  return own.firstMove !== null && compare(own.firstMove, pin.at) < 0 ? null : idleFor(pin);
};

/** The pins of one pedal: the positions that it keeps, and when the first of its moves is made. */
interface OwnPins {
  readonly held: readonly PositionPin[];
  readonly firstMove: Rational | null;
}

const ownPinsOf = (letter: Letter, pins: readonly Pin[]): OwnPins => {
  const moves = pins.filter((pin): pin is MovePin => pin.kind === 'move' && pin.letter === letter);
  const [first] = moves.map(({ at }) => at).sort(compare);
  return {
    held: pins.filter((pin): pin is PositionPin => pin.kind === 'position' && pin.letter === letter),
    firstMove: first ?? null,
  };
};

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
