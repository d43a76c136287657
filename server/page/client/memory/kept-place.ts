import { type Memory, putOnShelf, takeFromShelf } from './shelf.ts';

const SHELF = 'tringle places';

/** Keeps which bar of a piece is looked at: an index. */
export const keepPlace = (memory: Memory, key: string, bar: number): boolean =>
  putOnShelf(memory, SHELF, key, bar);

/** The bar of a piece that was looked at last, as an index; null where none is known. */
export const recallPlace = (memory: Memory, key: string): number | null => {
  const bar = takeFromShelf(memory, SHELF, key);
  return typeof bar === 'number' && Number.isInteger(bar) && bar >= 0 ? bar : null;
};
