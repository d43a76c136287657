import { type BreakRequest, chooseBreaks, lineHeights } from './breaks/choose-breaks.ts';
import { choosePages, type PageRequest } from './breaks/choose-pages.ts';
import type { PageTurn } from './breaks/page-turns.ts';
import type { LaidOutSystem } from './laid-out-system.ts';
import { type LinePlan, type Lines, layOutLines } from './lay-out-lines.ts';
import type { Workshop } from './measure/measure-part.ts';
import { firstBars, heightsOf, pageRequest, remindersOf, turnsOf } from './page-plan.ts';
import { type Stepwise, workOut } from './stepwise.ts';

/** A page whose lines are laid out, while others are not: most often it stays so. */
export interface EarlyPage {
  /** From 0. */
  readonly page: number;
  /** How many pages there will be, as far as that is known. */
  readonly of: number;
  readonly systems: readonly LaidOutSystem[];
  /** The bar (an index) with which the next page begins. */
  readonly nextBar: number;
  /** The bars at whose start a setting is printed in any case: the rooms are those for them. */
  readonly reminders: readonly number[];
  /** How it is turned for the next page, where it is. */
  readonly turn: PageTurn | null;
}

/** Where the first page ends hardly depends on what stands after so many more. */
const PAGES_AHEAD = 2;

/**
 * Lays out the first page of a part that is measured as far as some pages.
 *
 * @returns null where it has to be measured farther, or cannot be laid out line by line
 */
export const layOutFirstPage = (shop: Workshop, task: BreakRequest): EarlyPage | null => {
  const { document, drawer, rate, request } = shop;
  const chosen = chooseBreaks(task);
  const [next] = chosen.pages;
  if (next === undefined || chosen.pages.length < PAGES_AHEAD) return null;
  const reminders = remindersOf(request, chosen);
  const wanted = chosen.systems.indexOf(next) + 1;
  const plan = { starts: chosen.systems, pages: chosen.pages, reminders, wanted };
  const lines = workOut(layOutLines(request, document, drawer, plan));
  if (lines === null || lines.isWhole) return null;
  const measured = task.part.bars.at(-1)!.bar + 1;
  return {
    page: 0,
    of: Math.round(((chosen.pages.length + 1) * request.score.bars.length) / measured),
    systems: lines.systems,
    nextBar: next,
    reminders,
    turn: turnsOf(request.engraving.pageTurns, rate, [0, next])[0] ?? null,
  };
};

/**
 * Tells pages as soon as their lines are laid out: pages are filled by the heights of these, and by what was measured of
 * the others.
 *
 * @param laying lays out the lines of the plan
 */
export function* readyPages(
  shop: Workshop,
  laying: Stepwise<readonly LaidOutSystem[], Lines | null>,
  task: BreakRequest,
  { reminders, starts }: LinePlan,
): Stepwise<EarlyPage, Lines | null> {
  const { pageTurns } = shop.request.engraving;
  const bars = [0, ...starts];
  const measured = lineHeights(task, starts).map((height, line) => ({ firstBar: bars[line]!, height }));
  const sum = (lines: readonly { readonly height: number }[]): number =>
    lines.reduce((total, { height }) => total + height, 0);
  let told = 0;
  // What all pages have in common, known with the first line.
  let request: PageRequest | null = null;
  let step = laying.next();
  for (; step.done !== true; step = laying.next()) {
    const systems = step.value;
    request ??= pageRequest(shop, { reminders, systems });
    const known = heightsOf(shop.request, systems);
    // What is measured is a little off, and by about as much all through a part.
    const off = sum(known) / sum(measured.slice(0, systems.length));
    const others = measured.slice(systems.length).map((line) => ({ ...line, height: line.height * off }));
    const likely = [...known, ...others];
    const begin = choosePages({ ...request, systems: likely });
    const turns = turnsOf(pageTurns, shop.rate, firstBars(likely, begin));
    // The last page is not early.
    for (let next = begin[told + 1]; next !== undefined && next <= systems.length; next = begin[told + 1]) {
      yield {
        page: told,
        of: begin.length,
        systems: systems.slice(begin[told], next),
        nextBar: likely[next]!.firstBar,
        reminders,
        turn: turns.find(({ page }) => page === told + 1) ?? null,
      };
      told += 1;
    }
  }
  return step.value;
}
