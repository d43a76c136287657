import { fail, ok, type Result } from '../../engine/index.ts';
import type { Footnote } from '../part/texts/long-directions.ts';
import type { Breaks } from './breaks/breaks.ts';
import { chooseBreaks, fitWidth } from './breaks/choose-breaks.ts';
import { holdAll } from './breaks/choose-pages.ts';
import { fileBreaks } from './breaks/file-breaks.ts';
import { type PageTurn, turnRater } from './breaks/page-turns.ts';
import { prepareDocument } from './document/layout-document.ts';
import type { Drawer } from './drawer/drawer.ts';
import { layOutFromHead } from './early/early-head.ts';
import { type EarlyPage, layOutFirstPage } from './early/early-pages.ts';
import { breakIntoPages, type FilledPages, fillPages } from './fill-pages.ts';
import type { LayoutRequest } from './layout-request.ts';
import type { LaidOutSystem } from './lines/laid-out-system.ts';
import { layOutLines } from './lines/lay-out-lines.ts';
import { measurePart, type Workshop } from './measure/measure-part.ts';
import { firstBars, pageRequest, remindersOf, turnsOf } from './page-plan.ts';
import { type Stepwise, workOut } from './stepwise.ts';

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
 * @yields pages but the last, in their order, each as it will most likely be
 * @returns pages in which each room still holds its placeholder, or `layout-failed`
 */
export function* layOutHarp(
  request: LayoutRequest,
  drawer: Drawer,
): Stepwise<EarlyPage, Result<LaidOutScore>> {
  const { engraving, score } = request;
  const head = request.early && !engraving.keepBreaks ? layOutFromHead(request, drawer) : null;
  if (head !== null) yield head;
  const document = prepareDocument(request, drawer);
  if (document === null) return fail({ code: 'layout-failed' });
  const rate = turnRater(score);
  const wanted = engraving.keepBreaks ? fileBreaks(score) : null;
  const kept = wanted === null ? null : keepBreaks({ request, document, drawer, rate }, wanted);
  const filled = kept ?? (yield* breakFreely({ request, document, drawer, rate }, head !== null));
  if (filled === null) return fail({ code: 'layout-failed' });
  const { lines, starts } = filled;
  return ok({
    pages: starts.map((start, page) => lines.systems.slice(start, starts[page + 1])),
    reminders: lines.reminders,
    isWhole: lines.isWhole,
    turns: turnsOf(engraving.pageTurns, rate, firstBars(lines.systems, starts)),
    replacedMarkings: document.replacedMarkings,
    accidentalsAdded: document.accidentalsAdded,
    ledgerBars: document.ledgerBars,
    lettersLeftOut: document.lettersLeftOut,
    footnotes: document.footnotes,
    breaksGivenUp: engraving.keepBreaks && kept === null,
  });
}

/**
 * Chooses lines and pages; the first page is drawn as soon as enough of the part is measured to choose its lines.
 *
 * @param hasFirst whether it is drawn already
 */
function* breakFreely(shop: Workshop, hasFirst: boolean): Stepwise<EarlyPage, FilledPages | null> {
  const measuring = measurePart(shop, []);
  const { early: isAwaited, score } = shop.request;
  let isBegun = hasFirst || !isAwaited;
  let step = measuring.next();
  for (; step.done !== true; step = measuring.next()) {
    if (isBegun) continue;
    const task = step.value();
    const early = task === null ? null : layOutFirstPage(shop, task, score.bars.length);
    if (early === null) continue;
    isBegun = true;
    yield early;
  }
  const task = step.value;
  return task === null ? null : yield* breakIntoPages(shop, task);
}

/** Keeps the breaks of the file; null where its lines are too wide or its pages too high for the paper. */
const keepBreaks = (shop: Workshop, { pages, systems }: Breaks): FilledPages | null => {
  const task = workOut(measurePart(shop, systems));
  if (task === null || !fitWidth(task, systems)) return null;
  if (pages.length === 0)
    return workOut(fillPages(shop, { systems, pages: chooseBreaks(task, systems).pages }, task));
  const plan = { starts: systems, pages, reminders: remindersOf(shop.request, { pages, systems }) };
  const lines = workOut(layOutLines(shop.request, shop.document, shop.drawer, plan));
  if (lines === null) return null;
  const starts = lines.systems.flatMap(({ firstBar }, i) => (i === 0 || pages.includes(firstBar) ? [i] : []));
  return holdAll(pageRequest(shop, lines), starts) ? { lines, starts } : null;
};
