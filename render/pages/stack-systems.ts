import { GAP_VU } from '../layout/breaks/page-space.ts';

/** A page that is to be filled; lengths in vu (half staff spaces). */
export interface PageStack {
  /** Of its systems, in order. */
  readonly heights: readonly number[];
  readonly room: number;
  /** What stands under its music takes so much of the room. */
  readonly under: number;
}

/** Systems farther apart than so no longer read as one page: what is left is at its end. */
const MOST_EXTRA_VU = 20;
/** What is usual where no page is full. */
const USUAL_EXTRA_VU = 6;

/**
 * How far systems stand apart on each page. What is left over goes between the systems, the same between all of a page;
 * the last page keeps the distances of the others and is short at its end.
 */
export const systemGaps = (pages: readonly PageStack[]): number[] => {
  const extras = pages.map(extraOf);
  const full = extras
    .slice(0, -1)
    .filter((extra) => extra <= MOST_EXTRA_VU)
    .sort((a, b) => a - b);
  const usual = full[full.length >> 1] ?? USUAL_EXTRA_VU;
  const mostOf = (page: number): number => (page === pages.length - 1 ? usual : MOST_EXTRA_VU);
  return extras.map((extra, page) => GAP_VU + Math.min(extra, mostOf(page)));
};

/** How far systems stand apart on a page that another follows. */
export const systemGap = (page: PageStack): number => GAP_VU + Math.min(extraOf(page), MOST_EXTRA_VU);

/** What fills a page when it is added between its systems. */
const extraOf = ({ heights, room, under }: PageStack): number => {
  const taken = heights.reduce((sum, height) => sum + height, under) + GAP_VU * (heights.length - 1);
  return heights.length < 2 ? Number.POSITIVE_INFINITY : Math.max(0, room - taken) / (heights.length - 1);
};
