import type { Score } from '../../engine/index.ts';
import { listMovements } from '../facts/movements.ts';
import { SVG_UNITS_PER_MM } from '../layout/breaks/page-layout.ts';
import type { SetPages } from '../pages/set-pages.ts';
import type { Words } from '../words/worded.ts';

/** An entry of a PDF's outline. */
export interface Bookmark {
  readonly text: string;
  /** Index of the page. */
  readonly page: number;
  /** From the page's upper edge. */
  readonly topMm: number;
  readonly level: 1 | 2 | 3;
}

/** Where lines and rehearsal marks stand on the pages of a part. */
type PagePlaces = Pick<SetPages, 'lines' | 'rehearsals'>;

/** The title, and under it the movements and the rehearsal marks. */
export const readBookmarks = (
  title: string,
  score: Score,
  places: PagePlaces,
  words: Words,
): readonly Bookmark[] => [
  { text: title, page: 0, topMm: 0, level: 1 },
  ...bookmarksWithin(score, places, words),
];

/** What stands under the title of a part: its movements where it has several, and under each its rehearsal marks. */
export const bookmarksWithin = (
  score: Score,
  { lines, rehearsals }: PagePlaces,
  words: Words,
): readonly Bookmark[] => {
  const movements = listMovements(score, words).map(({ name, bar }): Bookmark => {
    // A movement begins a line.
    const { page, y } = lines.findLast(({ firstBar }) => firstBar <= bar)!;
    return { text: name, page, topMm: y / SVG_UNITS_PER_MM, level: 2 };
  });
  const marks = rehearsals.map(
    ({ text, page, y }): Bookmark => ({
      text,
      page,
      topMm: y / SVG_UNITS_PER_MM,
      level: movements.length === 0 ? 2 : 3,
    }),
  );
  return [...movements, ...marks].sort((a, b) => a.page - b.page || a.topMm - b.topMm);
};
