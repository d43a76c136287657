import type { Score } from '../../engine/index.ts';

/** The bars (indices) in which a note of the player begins. */
export const barsWithNotes = ({ notes }: Pick<Score, 'notes'>): ReadonlySet<number> =>
  new Set(notes.filter(({ role }) => role === 'played').map(({ bar }) => bar));
