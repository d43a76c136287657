import { POSITIONS, type Position } from '../../harp/setting.ts';

/** Where the pedals of one foot stand, as a number: two bits a pedal. At most four pedals. */
export type Stand = number;

/** Pedals of one foot as bits. */
export type Pedals = number;

const PEDALS = [0, 1, 2, 3] as const;

export const positionIn = (stand: Stand, pedal: number): Position => POSITIONS[(stand >> (2 * pedal)) & 3]!;

/** A stand that differs from `stand` in that one pedal, so far flat, is at `position`. */
const withPosition = (stand: Stand, pedal: number, position: Position): Stand =>
  stand | ((position + 1) << (2 * pedal));

/** The pedals that two stands have in different places. */
export const differing = (a: Stand, b: Stand): Pedals => DIFFERING[a ^ b]!;

const DIFFERING = Uint8Array.from({ length: 1 << (2 * PEDALS.length) }, (_, changed) =>
  PEDALS.reduce((bits: number, pedal) => ((changed >> (2 * pedal)) & 3 ? bits | (1 << pedal) : bits), 0),
);

/** The numbers of the pedals, in order. */
export const pedalsOf = (bits: Pedals): readonly number[] => NUMBERS[bits]!;

const NUMBERS: readonly (readonly number[])[] = Array.from({ length: 1 << PEDALS.length }, (_, bits) =>
  PEDALS.filter((pedal) => bits & (1 << pedal)),
);

/** All combinations of positions at every moment; moments with the same choices share one list. */
export const standsByMoment = (
  choices: readonly (readonly (readonly Position[])[])[],
  moments: number,
): (readonly Stand[])[] => {
  const known = new Map<number, readonly Stand[]>();
  return Array.from({ length: moments }, (_, moment) => {
    let key = 0;
    for (const at of choices) {
      key <<= POSITIONS.length;
      for (const position of at[moment]!) key |= 1 << (position + 1);
    }
    const stands = known.get(key) ?? combine(choices.map((at) => at[moment]!));
    known.set(key, stands);
    return stands;
  });
};

const combine = (lists: readonly (readonly Position[])[]): readonly Stand[] =>
  lists.reduce<Stand[]>(
    (stands, list, pedal) =>
      stands.flatMap((stand) => list.map((position) => withPosition(stand, pedal, position))),
    [0],
  );
