import { type BreakRequest, chooseBreaks, lineHeights } from '../breaks/choose-breaks.ts';
import { choosePages, type PageRequest } from '../breaks/choose-pages.ts';
import type { PageTurn } from '../breaks/page-turns.ts';
import type { LaidOutSystem } from '../lines/laid-out-system.ts';
import { type LinePlan, type Lines, layOutLines } from '../lines/lay-out-lines.ts';
import type { Workshop } from '../measure/measure-part.ts';
import { firstBars, heightsOf, pageRequest, remindersOf, turnsOf } from '../page-plan.ts';
import { type Stepwise, workOut } from '../stepwise.ts';

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

/** Lines are a little higher or lower than measured, so that the first page may hold one or two more. */
const MOST_TRIES = 3;

/**
 * Lays out the first page of a part that is measured as far as some pages.
 *
 * @param bars how many the whole part has
 * @returns null where it has to be measured farther, or cannot be laid out line by line
 */
export const layOutFirstPage = (shop: Workshop, task: BreakRequest, bars: number): EarlyPage | null => {
  const { document, drawer, request } = shop;
  const chosen = chooseBreaks(task);
  if (chosen.pages.length < PAGES_AHEAD) return null;
  const plan = { starts: chosen.systems, pages: chosen.pages, reminders: remindersOf(request, chosen) };
  const fill = pageFiller(shop, task, plan);
  let wanted: number | undefined = chosen.systems.indexOf(chosen.pages[0]!) + 1;
  for (let i = 0; i < MOST_TRIES && wanted !== undefined; i += 1) {
    const lines = workOut(layOutLines(request, document, drawer, { ...plan, wanted }));
    if (lines === null || lines.isWhole) return null;
    const pages = fill(lines.systems);
    const first = pages.read(0);
    if (first !== null) {
      const measured = task.part.bars.at(-1)!.bar + 1;
      return { ...first, of: Math.round((first.of * bars) / measured) };
    }
    wanted = pages.starts[1];
  }
  return null;
};

/** Pages as they most likely are, while some lines are laid out. */
interface LikelyPages {
  /** The lines that begin them. */
  readonly starts: readonly number[];
  /** @returns null for the last page, which is not early, and for one whose lines are not all laid out */
  readonly read: (page: number) => EarlyPage | null;
}

/**
 * Fills pages by the heights of the lines that are laid out, and by what was measured of the others.
 *
 * @returns a function of the lines from the first, as far as they are laid out: at least one
 */
const pageFiller = (
  shop: Workshop,
  task: BreakRequest,
  { reminders, starts }: LinePlan,
): ((systems: readonly LaidOutSystem[]) => LikelyPages) => {
  const bars = [0, ...starts];
  const measured = lineHeights(task, starts).map((height, line) => ({ firstBar: bars[line]!, height }));
  // What all pages have in common, known with the first line.
  let request: PageRequest | null = null;
  return (systems) => {
    request ??= pageRequest(shop, { reminders, systems });
    const known = heightsOf(shop.request, systems);
    // What is measured is a little off, and by about as much all through a part.
    const off = sumOf(known) / sumOf(measured.slice(0, systems.length));
    const others = measured.slice(systems.length).map((line) => ({ ...line, height: line.height * off }));
    const likely = [...known, ...others];
    const begin = choosePages({ ...request, systems: likely });
    const turns = turnsOf(shop.request.engraving.pageTurns, shop.rate, firstBars(likely, begin));
    return {
      starts: begin,
      read: (page) => {
        const next = begin[page + 1];
        if (next === undefined || next > systems.length) return null;
        return {
          page,
          of: begin.length,
          systems: systems.slice(begin[page], next),
          nextBar: likely[next]!.firstBar,
          reminders,
          turn: turns.find((turn) => turn.page === page + 1) ?? null,
        };
      },
    };
  };
};

const sumOf = (lines: readonly { readonly height: number }[]): number =>
  lines.reduce((total, { height }) => total + height, 0);

/**
 * Tells pages as soon as their lines are laid out.
 *
 * @param laying lays out the lines of the plan
 */
export function* readyPages(
  shop: Workshop,
  laying: Stepwise<readonly LaidOutSystem[], Lines | null>,
  task: BreakRequest,
  plan: LinePlan,
): Stepwise<EarlyPage, Lines | null> {
  const fill = pageFiller(shop, task, plan);
  let told = 0;
  let step = laying.next();
  for (; step.done !== true; step = laying.next()) {
    const pages = fill(step.value);
    for (let page = pages.read(told); page !== null; page = pages.read(told)) {
      yield page;
      told += 1;
    }
  }
  return step.value;
}
