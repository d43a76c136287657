import { POSITIONS, type Position } from '../../harp/setting.ts';

/** Where the pedals of one foot stand, as a number: two bits a pedal. At most four pedals. */
export type FootPositions = number;

/** Pedals of one foot as bits. */
export type PedalMask = number;

const PEDALS = [0, 1, 2, 3] as const;

export const positionOf = (positions: FootPositions, pedal: number): Position =>
  POSITIONS[(positions >> (2 * pedal)) & 3]!;

/** A stand that differs from `stand` in that one pedal, so far flat, is at `position`. */
const withPosition = (positions: FootPositions, pedal: number, position: Position): FootPositions =>
  positions | ((position + 1) << (2 * pedal));

/** The pedals that two stands have in different places. */
export const movedPedals = (a: FootPositions, b: FootPositions): PedalMask => DIFFERING[a ^ b]!;

const DIFFERING = Uint8Array.from({ length: 1 << (2 * PEDALS.length) }, (_, changed) =>
  PEDALS.reduce((bits: number, pedal) => ((changed >> (2 * pedal)) & 3 ? bits | (1 << pedal) : bits), 0),
);

/** The numbers of the pedals, in order. */
export const pedalIndices = (bits: PedalMask): readonly number[] => NUMBERS[bits]!;

const NUMBERS: readonly (readonly number[])[] = Array.from({ length: 1 << PEDALS.length }, (_, bits) =>
  PEDALS.filter((pedal) => bits & (1 << pedal)),
);

/** All combinations of positions at every moment; the same choices are one list, whenever they are asked for. */
export const footPositionsByMoment = (
  choices: readonly (readonly (readonly Position[])[])[],
  moments: number,
): readonly (readonly FootPositions[])[] => combinedWithin(choices, [], 0, moments);

/** The same, where they are known but for those from one moment to the one before another. */
export const footPositionsAgain = (
  choices: readonly (readonly (readonly Position[])[])[],
  known: readonly (readonly FootPositions[])[],
  first: number,
  end: number,
): readonly (readonly FootPositions[])[] => combinedWithin(choices, [...known], first, end);

const combinedWithin = (
  choices: readonly (readonly (readonly Position[])[])[],
  all: (readonly FootPositions[])[],
  first: number,
  end: number,
): readonly (readonly FootPositions[])[] => {
  for (let moment = first; moment < end; moment += 1) {
    const isAsBefore = moment > 0 && choices.every((at) => at[moment] === at[moment - 1]);
    all[moment] = isAsBefore ? all[moment - 1]! : combined(choices.map((at) => at[moment]!));
  }
  return all;
};

const combined = (lists: readonly (readonly Position[])[]): readonly FootPositions[] => {
  let key = 0;
  for (const list of lists) {
    key <<= POSITIONS.length;
    for (const position of list) key |= 1 << (position + 1);
  }
  const known = COMBINED.get(key);
  if (known !== undefined) return known;
  const stands = combine(lists);
  COMBINED.set(key, stands);
  return stands;
};

/** By the positions of each pedal as bits: each pedal has one at least, so that keys of more pedals are greater. */
const COMBINED = new Map<number, readonly FootPositions[]>();

const combine = (lists: readonly (readonly Position[])[]): readonly FootPositions[] =>
  lists.reduce<FootPositions[]>(
    (stands, list, pedal) =>
      stands.flatMap((positions) => list.map((position) => withPosition(positions, pedal, position))),
    [0],
  );
