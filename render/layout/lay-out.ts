import { fail, ok, type Result } from '../../engine/index.ts';
import type { EngravingOptions } from '../engraving-options.ts';
import type { Footnote } from '../part/texts/long-directions.ts';
import type { Breaks } from './breaks/breaks.ts';
import { chooseBreaks, fitWidth } from './breaks/choose-breaks.ts';
import { choosePages, holdAll, type PageRequest } from './breaks/choose-pages.ts';
import { fileBreaks } from './breaks/file-breaks.ts';
import { svgUnitsPerVu } from './breaks/page-layout.ts';
import { pageSpaceOf } from './breaks/page-space.ts';
import { isTurn, type PageTurn, type RateTurn, turnRater } from './breaks/page-turns.ts';
import type { Drawer } from './drawer.ts';
import type { LaidOutSystem } from './laid-out-system.ts';
import { type Lines, layOutLines } from './lay-out-lines.ts';
import { prepareDocument } from './layout-document.ts';
import type { LayoutRequest } from './layout-request.ts';
import { measurePart, type Workshop } from './measure/measure-part.ts';

export interface LaidOutScore {
  /** The systems of each page. */
  readonly pages: readonly (readonly LaidOutSystem[])[];
  /** The bars at whose start a setting is printed in any case: the rooms are those for them. */
  readonly reminders: readonly number[];
  readonly turns: readonly PageTurn[];
  readonly replacedMarkings: number;
  /** Bars (indices) with accidentals that the file does not print, one for each. */
  readonly accidentalsAdded: readonly number[];
  /** Bars (indices) with many ledger lines within reach of the other staff. */
  readonly ledgerBars: readonly number[];
  /** Bars (indices) with coloured letters of an analysis, which are left out, one for each. */
  readonly lettersLeftOut: readonly number[];
  /** Notes of the file that stand under the music. */
  readonly footnotes: readonly Footnote[];
  /** The breaks of the file were asked for, but it has none, or its lines or pages are too full for the paper. */
  readonly breaksGivenUp: boolean;
  /** The lines could not be laid out one by one. */
  readonly isWhole: boolean;
}

/**
 * Lays the harp's staves out on pages with a room for every marking.
 *
 * First the part is laid out as one line, to learn how wide and how high each bar is by nature. Then lines and pages are
 * chosen, each line is laid out by itself, and the pages are filled with them by their true heights.
 *
 * @returns pages in which each room still holds its placeholder, or `layout-failed`
 */
export const layOutHarp = (request: LayoutRequest, drawer: Drawer): Result<LaidOutScore> => {
  const { engraving, score } = request;
  const document = prepareDocument(request, drawer);
  if (document === null) return fail({ code: 'layout-failed' });
  const rate = turnRater(score);
  const wanted = engraving.keepBreaks ? fileBreaks(score) : null;
  const kept = wanted === null ? null : keepBreaks({ request, document, drawer, rate }, wanted);
  const filled = kept ?? breakFreely({ request, document, drawer, rate });
  if (filled === null) return fail({ code: 'layout-failed' });
  const { lines, starts } = filled;
  return ok({
    pages: starts.map((start, page) => lines.systems.slice(start, starts[page + 1])),
    reminders: lines.reminders,
    isWhole: lines.isWhole,
    turns: turnsOf(engraving.pageTurns, rate, firstBars(lines, starts)),
    replacedMarkings: document.replacedMarkings,
    accidentalsAdded: document.accidentalsAdded,
    ledgerBars: document.ledgerBars,
    lettersLeftOut: document.lettersLeftOut,
    footnotes: document.footnotes,
    breaksGivenUp: engraving.keepBreaks && kept === null,
  });
};

/** Lines, and the indices of those that begin a page. */
interface FilledPages {
  readonly lines: Lines;
  readonly starts: readonly number[];
}

const firstBars = ({ systems }: Lines, starts: readonly number[]): number[] =>
  starts.map((start) => systems[start]!.firstBar);

/** Chooses lines and pages. */
const breakFreely = (shop: Workshop): FilledPages | null => {
  const task = measurePart(shop, []);
  return task === null ? null : fillPages(shop, chooseBreaks(task));
};

/** Keeps the breaks of the file; null where its lines are too wide or its pages too high for the paper. */
const keepBreaks = (shop: Workshop, { pages, systems }: Breaks): FilledPages | null => {
  const task = measurePart(shop, systems);
  if (task === null || !fitWidth(task, systems)) return null;
  if (pages.length === 0) return fillPages(shop, { systems, pages: chooseBreaks(task, systems).pages });
  const reminders = remindersOf(shop.request, { pages, systems });
  const lines = layOutLines(shop.request, shop.document, shop.drawer, { starts: systems, reminders });
  if (lines === null) return null;
  const starts = lines.systems.flatMap(({ firstBar }, i) => (i === 0 || pages.includes(firstBar) ? [i] : []));
  return holdAll(pageRequest(shop, lines), starts) ? { lines, starts } : null;
};

/** How often pages are filled anew where the settings at their starts change what they hold. */
const MOST_FILLINGS = 3;

/** Lays the lines out and fills pages with them by their true heights. */
const fillPages = (shop: Workshop, chosen: Breaks): FilledPages | null => {
  let { pages } = chosen;
  let filled: FilledPages | null = null;
  for (let i = 0; i < MOST_FILLINGS; i += 1) {
    const reminders = remindersOf(shop.request, { systems: chosen.systems, pages });
    if (filled !== null && `${filled.lines.reminders}` === `${reminders}`) return filled;
    const lines = layOutLines(shop.request, shop.document, shop.drawer, {
      starts: chosen.systems,
      reminders,
    });
    if (lines === null) return null;
    filled = { lines, starts: choosePages(pageRequest(shop, lines)) };
    pages = firstBars(lines, filled.starts).slice(1);
  }
  return filled;
};

const pageRequest = ({ request, document, rate }: Workshop, { systems, reminders }: Lines): PageRequest => {
  const { engraving, layout } = request;
  const unitsPerVu = svgUnitsPerVu(layout);
  const { heading, origin } = systems[0]!;
  return {
    systems: systems.map(({ bottom, firstBar, top }) => ({ firstBar, height: (bottom - top) / unitsPerVu })),
    heading: heading === null ? 0 : (heading.bottom - origin.y) / unitsPerVu,
    room: pageSpaceOf(layout).room,
    under: request.under(reminders, document.footnotes) / unitsPerVu,
    turns: engraving.pageTurns,
    rate,
  };
};

/** The bars at whose start a setting is printed in any case. */
const remindersOf = (
  { engraving: { settings, density, leverTables } }: LayoutRequest,
  { pages, systems }: Breaks,
): readonly number[] => {
  const wanted = density === 'changes' ? { systemStart: false, pageStart: false } : settings;
  if (wanted.systemStart || leverTables === 'each-line') return [0, ...systems];
  return wanted.pageStart || leverTables === 'each-page' ? [0, ...pages] : [];
};

/** The page turns, good or bad. @param bars with which pages begin */
const turnsOf = (turns: EngravingOptions['pageTurns'], rate: RateTurn, bars: readonly number[]): PageTurn[] =>
  bars.slice(1).flatMap((bar, i) => (isTurn(i % 2 === 0, turns) ? [{ page: i + 1, ...rate(bar) }] : []));
