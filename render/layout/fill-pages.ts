import type { Breaks } from './breaks/breaks.ts';
import { type BreakRequest, chooseBreaks } from './breaks/choose-breaks.ts';
import { choosePages } from './breaks/choose-pages.ts';
import { type EarlyPage, readyPages } from './early/early-pages.ts';
import { type Lines, layOutLines } from './lines/lay-out-lines.ts';
import type { Workshop } from './measure/measure-part.ts';
import { firstBars, learnHeights, pageRequest, remindersOf } from './page-plan.ts';
import { type Stepwise, workOut } from './stepwise.ts';

/** Lines, and the indices of those that begin a page. */
export interface FilledPages {
  readonly lines: Lines;
  readonly starts: readonly number[];
}

/**
 * Chooses lines and pages, and once more by the heights that lines came out with where the last line would else stand on
 * a page by itself.
 *
 * @yields pages as soon as their lines are laid out
 * @returns null where the layout cannot load the document
 */
export function* breakIntoPages(shop: Workshop, task: BreakRequest): Stepwise<EarlyPage, FilledPages | null> {
  const filled = yield* fillPages(shop, chooseBreaks(task), task);
  if (filled === null || !endsLone(filled) || filled.lines.isWhole) return filled;
  const again = workOut(fillPages(shop, chooseBreaks(learnHeights(shop, task, filled.lines)), task));
  return again === null || endsLone(again) || again.starts.length > filled.starts.length ? filled : again;
}

const endsLone = ({ lines, starts }: FilledPages): boolean =>
  starts.length > 1 && starts.at(-1) === lines.systems.length - 1;

/** How often pages are filled anew where the settings at their starts change what they hold. */
const MOST_FILLINGS = 3;

/**
 * Lays the lines out and fills pages with them by their true heights.
 *
 * @yields pages as soon as their lines are laid out
 * @returns null where the layout cannot load the document
 */
export function* fillPages(
  shop: Workshop,
  chosen: Breaks,
  task: BreakRequest,
): Stepwise<EarlyPage, FilledPages | null> {
  let { pages } = chosen;
  let filled: FilledPages | null = null;
  for (let i = 0; i < MOST_FILLINGS; i += 1) {
    const reminders = remindersOf(shop.request, { systems: chosen.systems, pages });
    if (filled !== null && `${filled.lines.reminders}` === `${reminders}`) return filled;
    const plan = { starts: chosen.systems, pages, reminders };
    const laying = layOutLines(shop.request, shop.document, shop.drawer, plan);
    const lines: Lines | null =
      filled === null ? yield* readyPages(shop, laying, task, plan) : workOut(laying);
    if (lines === null) return null;
    filled = { lines, starts: choosePages(pageRequest(shop, lines)) };
    pages = firstBars(lines.systems, filled.starts).slice(1);
  }
  return filled;
}
