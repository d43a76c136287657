import type { PageIndex, PageMarking } from '../score/drawn/page-markings.ts';
import type { Spot } from './spot.ts';

/** The moves of a spot: indices into the plan's moves. */
export const movesOf = (spot: Spot | null, index: PageIndex | null): readonly number[] => {
  if (spot?.kind === 'move') return [spot.move];
  if (spot?.kind === 'marking') return index?.markings.find(({ id }) => id === spot.id)?.moves ?? [];
  return [];
};

/** The marking of a spot, where it is on the pages. */
export const markingOf = (spot: Spot | null, index: PageIndex | null): PageMarking | null => {
  if (index === null || spot === null) return null;
  if (spot.kind === 'marking') return index.markings.find(({ id }) => id === spot.id) ?? null;
  return spot.kind === 'move' ? (index.markingOfMove[spot.move] ?? null) : null;
};
