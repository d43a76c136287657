import type { Titles } from './model/score.ts';

/** An address is no part of a name. */
const ADDRESS = /:\/\//u;

/**
 * Titles in which a note on where the file comes from, written in the place of the arranger, stands with the rights: at
 * the foot of the page, not among the names.
 */
export const withSourceNote = (titles: Titles): Titles => {
  const { arranger, rights } = titles;
  if (!ADDRESS.test(arranger)) return titles;
  return { ...titles, arranger: '', rights: [rights, arranger].filter((each) => each !== '').join(' · ') };
};
