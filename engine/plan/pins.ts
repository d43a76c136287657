import { isPosition, type Position } from '../harp/setting.ts';
import { isLetter, LETTERS, type Letter } from '../music/pitch.ts';
import { compare } from '../music/rational.ts';
import type { SourceMarking } from '../score/model.ts';
import type { PlacedNeed } from './choices.ts';
import type { Moments } from './moments.ts';
import type { Need } from './needs.ts';
import type { Pin } from './options.ts';

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
 * A pinned move stands at its moment: the moment before keeps the position of the last need, so that the pedal can
 * move nowhere else. A pin that contradicts a note or an earlier pin is left out and told.
 *
 * @param needs by letter, each in order of moment
 */
export const placePins = (
  pins: readonly Pin[],
  needs: ReadonlyMap<Letter, readonly PlacedNeed[]>,
  moments: Moments,
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
        : movePositions(pin, needs.get(pin.letter)!, moments);
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

const movePositions = (
  pin: Extract<Pin, { kind: 'move' }>,
  needs: readonly PlacedNeed[],
  moments: Moments,
): Map<number, Position> => {
  const moment = moments.all.findIndex(({ at, grace }) => grace === 0 && compare(at, pin.at) === 0);
  if (moment < 0) return new Map();
  const before = needs.findLast((placed) => placed.moment < moment);
  const wanted = new Map([[moment, pin.position]]);
  if (moment > 0 && before !== undefined && before.need.position !== pin.position) {
    wanted.set(moment - 1, before.need.position);
  }
  return wanted;
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
