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
): (readonly FootPositions[])[] => {
  let [last, stands]: [number, readonly FootPositions[]] = [-1, []];
  return Array.from({ length: moments }, (_, moment) => {
    let key = 0;
    for (let pedal = 0; pedal < choices.length; pedal += 1) {
      const here = choices[pedal]![moment]!;
      key <<= POSITIONS.length;
      for (let i = 0; i < here.length; i += 1) key |= 1 << (here[i]! + 1);
    }
    if (key !== last) {
      stands = COMBINED.get(key) ?? combine(choices.map((at) => at[moment]!));
      COMBINED.set(key, stands);
      last = key;
    }
    return stands;
  });
};

/** By the positions of each pedal as bits: each pedal has one at least, so that keys of more pedals are greater. */
const COMBINED = new Map<number, readonly FootPositions[]>();

const combine = (lists: readonly (readonly Position[])[]): readonly FootPositions[] =>
  lists.reduce<FootPositions[]>(
    (stands, list, pedal) =>
      stands.flatMap((positions) => list.map((position) => withPosition(positions, pedal, position))),
    [0],
  );
