import type { EngravingOptions } from '../engraving-options.ts';
import type { Breaks } from './breaks/breaks.ts';
import { type BreakRequest, lineHeights } from './breaks/choose-breaks.ts';
import type { PageRequest } from './breaks/choose-pages.ts';
import { svgUnitsPerVu } from './breaks/page-layout.ts';
import { pageSpaceOf } from './breaks/page-space.ts';
import { isTurn, type PageTurn, type RateTurn } from './breaks/page-turns.ts';
import type { LayoutRequest } from './layout-request.ts';
import type { LaidOutSystem } from './lines/laid-out-system.ts';
import type { Lines } from './lines/lay-out-lines.ts';
import type { Workshop } from './measure/measure-part.ts';

/** What pages are filled with and by, from lines that are laid out: the first at least. */
export const pageRequest = (
  { document, request, rate }: Workshop,
  { reminders, systems }: Pick<Lines, 'reminders' | 'systems'>,
): PageRequest => {
  const { engraving, layout } = request;
  const unitsPerVu = svgUnitsPerVu(layout);
  const { heading, origin } = systems[0]!;
  return {
    systems: heightsOf(request, systems),
    heading: heading === null ? 0 : (heading.bottom - origin.y) / unitsPerVu,
    room: pageSpaceOf(layout).room,
    under: request.under(reminders, document.footnotes) / unitsPerVu,
    turns: engraving.pageTurns,
    rate,
  };
};

/** How high lines are, in vu, and where they begin. */
export const heightsOf = (
  { layout }: LayoutRequest,
  systems: readonly LaidOutSystem[],
): PageRequest['systems'] => {
  const unitsPerVu = svgUnitsPerVu(layout);
  return systems.map(({ bottom, firstBar, top }) => ({ firstBar, height: (bottom - top) / unitsPerVu }));
};

/** Lines that came out higher than measured teach how high others will be, and what stands under the last. */
export const learnHeights = (shop: Workshop, task: BreakRequest, lines: Lines): BreakRequest => {
  const { systems, under } = pageRequest(shop, lines);
  const starts = systems.slice(1).map(({ firstBar }) => firstBar);
  const measured = lineHeights(task, starts);
  const more = systems.map(({ height }, line) => Math.max(0, height - measured[line]!));
  const begins = new Set(starts);
  let line = 0;
  const bars = task.part.bars.map((bar) => {
    if (begins.has(bar.bar)) line += 1;
    return { ...bar, more: more[line]! };
  });
  return { ...task, part: { ...task.part, bars, under } };
};

/** The bars with which pages begin. @param starts indices of the lines that begin them */
export const firstBars = (
  lines: readonly { readonly firstBar: number }[],
  starts: readonly number[],
): number[] => starts.map((start) => lines[start]!.firstBar);

/** The bars at whose start a setting is printed in any case. */
export const remindersOf = (
  { engraving: { settings, density, leverTables }, entries }: LayoutRequest,
  { pages, systems }: Breaks,
): readonly number[] => {
  const wanted = density === 'changes' ? { systemStart: false, pageStart: false } : settings;
  if (wanted.systemStart || leverTables === 'each-line') return [0, ...systems];
  const begins = wanted.pageStart || leverTables === 'each-page' ? [0, ...pages] : [];
  const parted = entries.filter(({ bar, isForgotten, told }) =>
    (isForgotten ? systems : pages).some((start) => told < start && start <= bar),
  );
  return [...new Set([...begins, ...parted.map(({ bar }) => bar)])].sort((a, b) => a - b);
};

/** The page turns, good or bad. @param bars with which pages begin */
export const turnsOf = (
  turns: EngravingOptions['pageTurns'],
  rate: RateTurn,
  bars: readonly number[],
): PageTurn[] =>
  bars.slice(1).flatMap((bar, i) => (isTurn(i % 2 === 0, turns) ? [{ page: i + 1, ...rate(bar) }] : []));
