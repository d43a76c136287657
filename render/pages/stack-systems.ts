import { GAP_VU } from '../layout/breaks/page-space.ts';

/** A page that is to be filled; lengths in vu (half staff spaces). */
export interface PageStack {
  /** Of its systems, in order. */
  readonly heights: readonly number[];
  readonly room: number;
}

/** Systems farther apart than so no longer read as one page: it is left short at its end. */
const MOST_EXTRA_VU = 18;
/** What is usual where no page is full. */
const USUAL_EXTRA_VU = 6;

/**
 * How far systems stand apart on each page. What is left over goes between the systems, the same between all of a page;
 * a page that ends early for a turn, and the last one, keep the distances of the others and are short at their ends.
 */
export const systemGaps = (pages: readonly PageStack[]): number[] => {
  const extras = pages.map(extraOf);
  const isShort = (extra: number, page: number): boolean =>
    extra > MOST_EXTRA_VU || page === pages.length - 1;
  const full = extras.filter((extra, page) => !isShort(extra, page)).sort((a, b) => a - b);
  const usual = full[full.length >> 1] ?? USUAL_EXTRA_VU;
  return extras.map((extra, page) => GAP_VU + (isShort(extra, page) ? Math.min(extra, usual) : extra));
};

/** What fills a page when it is added between its systems. */
const extraOf = ({ heights, room }: PageStack): number => {
  const taken = heights.reduce((sum, height) => sum + height, 0) + GAP_VU * (heights.length - 1);
  return heights.length < 2 ? Number.POSITIVE_INFINITY : Math.max(0, room - taken) / (heights.length - 1);
};
