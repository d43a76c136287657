import type { Score } from '../../../engine/index.ts';
import type { EngravingOptions } from '../../engraving-options.ts';
import { type LaidOutPage, systemStarts } from '../laid-out-page.ts';
import { type PageLayout, SVG_UNITS_PER_MM } from './page-layout.ts';
import { dividePages, isTurn, type PageTurn, type SystemExtent, turnCost, turnRater } from './page-turns.ts';

/** First bars of the pages after page ends are moved to rests; null where nothing would be gained. */
export const movePageTurns = (
  score: Score,
  turns: EngravingOptions['pageTurns'],
  layout: PageLayout,
  pages: readonly LaidOutPage[],
): number[] | null => {
  if (turns === 'anywhere' || pages.length < 2) return null;
  const starts = systemStarts(score, pages);
  const extents = systemExtents(pages, starts, layout);
  if (extents === null) return null;
  const { systems, room } = extents;
  const rate = turnRater(score);
  const bars = dividePages(systems, room, rate, turns)?.map((system) => systems[system]!.firstBar);
  if (bars === undefined) return null;
  const before = starts.map((each) => each[0]!);
  return turnCost(bars, rate, turns) < turnCost(before, rate, turns) ? bars : null;
};

/**
 * How high each system is, from its own staves to the next system's; of the last on a page, to the page's foot. Pages
 * that were stretched to be full count as they are, so that what is moved always fits.
 */
const systemExtents = (
  pages: readonly LaidOutPage[],
  starts: readonly (readonly number[])[],
  { heightMm, marginMm }: PageLayout,
): {
  readonly systems: SystemExtent[];
  readonly room: { readonly first: number; readonly others: number };
} | null => {
  const foot = (heightMm - marginMm) * SVG_UNITS_PER_MM;
  const tops = pages.map(({ lines }) => lines.systems.map(({ staffTop }) => staffTop));
  if (tops.some((page, i) => page.length === 0 || page.length !== starts[i]!.length)) return null;
  const heights = tops.map((page) => page.map((top, i) => (page[i + 1] ?? foot) - top));
  // The last page is not full: its last system counts as the tallest of the others.
  const tallest = Math.max(...heights.slice(0, -1).flat());
  const last = heights.at(-1)!;
  last[last.length - 1] = Math.min(last.at(-1)!, tallest);
  return {
    systems: heights.flatMap((page, p) => page.map((height, i) => ({ firstBar: starts[p]![i]!, height }))),
    room: { first: foot - tops[0]![0]!, others: foot - tops[1]![0]! },
  };
};

/** The page turns of a layout, good or bad. */
export const turnsOf = (
  score: Score,
  turns: EngravingOptions['pageTurns'],
  pages: readonly LaidOutPage[],
): PageTurn[] => {
  const rate = turnRater(score);
  return systemStarts(score, pages)
    .slice(1)
    .flatMap(([bar], i) => (bar !== undefined && isTurn(i + 1, turns) ? [rate(i + 1, bar)] : []));
};
