import type { RehearsalMark } from '../geometry/rehearsal-marks.ts';
import { SVG_UNITS_PER_MM } from '../layout/breaks/page-layout.ts';

/** An entry of a PDF's outline. */
export interface Bookmark {
  readonly text: string;
  /** Index of the page. */
  readonly page: number;
  /** From the page's upper edge. */
  readonly topMm: number;
  readonly level: 1 | 2;
}

/** The title, and under it the rehearsal marks. */
export const readBookmarks = (title: string, rehearsals: readonly RehearsalMark[]): Bookmark[] => [
  { text: title, page: 0, topMm: 0, level: 1 },
  ...rehearsals.map(({ text, page, y }) => ({ text, page, topMm: y / SVG_UNITS_PER_MM, level: 2 as const })),
];
