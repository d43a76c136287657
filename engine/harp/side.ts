/** The player's left or right: the feet at the pedals, the hands at strings and levers. */
export type Side = 'left' | 'right';

/** Both, in the order of reading. */
export const SIDES = ['left', 'right'] as const satisfies readonly Side[];

/** One value for each foot, or for each hand. */
export type BySide<Value> = Readonly<Record<Side, Value>>;
