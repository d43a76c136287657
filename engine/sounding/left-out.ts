import type { Score } from '../score/model/score.ts';

/** The ids of all notes that are silent where some are left out: what is tied to one of those does not sound either. */
export const listLeftOut = (score: Score, chosen: ReadonlySet<string>): readonly string[] => {
  if (chosen.size === 0) return [];
  const silent = new Set<string>();
  for (const note of score.notes) {
    if (chosen.has(note.id) || (note.tiedFrom !== null && silent.has(note.tiedFrom))) silent.add(note.id);
  }
  return [...silent];
};
