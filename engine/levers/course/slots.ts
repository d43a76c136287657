import type { Side } from '../../harp/side.ts';

/** One hand at one moment: where a change can be made. Two slots make a moment, the left hand’s first. */
export type Slot = number;

export const slotOf = (moment: number, hand: Side): Slot => 2 * moment + (hand === 'right' ? 1 : 0);

export const momentOfSlot = (slot: Slot): number => slot >> 1;

export const handOfSlot = (slot: Slot): Side => ((slot & 1) === 0 ? 'left' : 'right');

/** The same hand at other moments. */
export const inSameHand = (slot: Slot, moment: number): Slot => 2 * moment + (slot & 1);
