import {
  add,
  buildClock,
  compare,
  type Note,
  type Rational,
  type Score,
  ZERO,
} from '../../../engine/index.ts';
import type { EngravingOptions } from '../../engraving-options.ts';

/** Where a page must be turned, and how much time there is for it. */
export interface PageTurn {
  /** The page that is turned over, from 1. */
  readonly page: number;
  /** Index of the first bar of the next page. */
  readonly bar: number;
  /** Which hands are free for long enough. */
  readonly free: 'both-hands' | 'one-hand' | 'none';
  /** How long they are free, in seconds: of both hands, or else of the freer one. */
  readonly seconds: number;
}

/** Long enough to turn a page (common practice, no source). */
const TURN_SECONDS = 1.5;

export const isTurn = (page: number, turns: EngravingOptions['pageTurns']): boolean =>
  turns === 'every-page' || (turns === 'right-hand-pages' && page % 2 === 1);

/** Rates a page end by the silence round the bar line: of both hands, or of the staff that rests longer. */
export const turnRater = (score: Score): ((page: number, bar: number) => PageTurn) => {
  const secondsAt = buildClock(score.tempo);
  const played = score.notes.filter((note) => note.role !== 'cue');
  const staves = [...new Set(played.map((note) => note.staff))].map((staff) =>
    played.filter((note) => note.staff === staff),
  );
  const known = new Map<number, Omit<PageTurn, 'page'>>();
  const rate = (bar: number): Omit<PageTurn, 'page'> => {
    const line = score.bars[bar]!.onset;
    const freeFor = (notes: readonly Note[]): number => {
      const { from, until } = silenceRound(notes, line);
      return until === null ? Number.POSITIVE_INFINITY : secondsAt(until) - secondsAt(from);
    };
    const both = freeFor(played);
    const one = Math.max(both, ...staves.map(freeFor));
    if (both >= TURN_SECONDS) return { bar, free: 'both-hands', seconds: both };
    return { bar, free: one >= TURN_SECONDS ? 'one-hand' : 'none', seconds: one };
  };
  return (page, bar) => {
    const rated = known.get(bar) ?? rate(bar);
    known.set(bar, rated);
    return { page, ...rated };
  };
};

/** From the last sound before a bar line to the first note after it; empty where a note is held over the line. */
const silenceRound = (
  notes: readonly Note[],
  line: Rational,
): { readonly from: Rational; readonly until: Rational | null } => {
  let from = ZERO;
  for (const { onset, duration } of notes) {
    if (compare(onset, line) >= 0)
      return compare(from, line) > 0 ? { from: line, until: line } : { from, until: onset };
    const end = add(onset, duration);
    if (compare(end, from) > 0) from = end;
  }
  return { from, until: null };
};

/** A system as laid out: its first bar, and the height it needs on a page. */
export interface SystemExtent {
  readonly firstBar: number;
  readonly height: number;
}

/** What makes one division into pages better than another; only the ratios matter. */
const COSTS = { noTurn: 1, oneHand: 0.4, page: 0.5, looseness: 1.5 } as const;

/** The cheapest way found to fill pages up to some system. */
interface Division {
  readonly cost: number;
  /** How many pages are filled. */
  readonly pages: number;
  /** Indices of the systems that begin them. */
  readonly starts: readonly number[];
}

/**
 * Divides systems into pages so that page turns fall on rests: the cheapest division, by an exact dynamic programme
 * over the systems and the side of the page (a left-hand page's end is no turn in a bound part).
 *
 * @param room height of the first page and of the others
 * @returns indices of the systems that begin a page, the first one included; null where some system fits on no page
 */
export const dividePages = (
  systems: readonly SystemExtent[],
  room: { readonly first: number; readonly others: number },
  rate: (page: number, bar: number) => PageTurn,
  turns: EngravingOptions['pageTurns'],
): readonly number[] | null => {
  const best: [Division | null, Division | null][] = systems.map(() => [null, null]);
  best.push([null, null]);
  best[0]![0] = { cost: 0, pages: 0, starts: [] };
  for (let start = 0; start < systems.length; start += 1) {
    for (const before of best[start]!) {
      if (before === null) continue;
      const page = before.pages + 1;
      const space = start === 0 ? room.first : room.others;
      let height = 0;
      for (let end = start + 1; end <= systems.length; end += 1) {
        height += systems[end - 1]!.height;
        if (height > space * ROUNDING) break;
        const next = systems[end];
        const ending = next === undefined ? 0 : pageCost(page, next.firstBar, height / space, rate, turns);
        const cost = before.cost + COSTS.page + ending;
        const side = page % 2;
        if (cost < (best[end]![side]?.cost ?? Number.POSITIVE_INFINITY)) {
          best[end]![side] = { cost, pages: page, starts: [...before.starts, start] };
        }
      }
    }
  }
  const [even, odd] = best[systems.length]!;
  const cheapest = even === null || (odd !== null && odd.cost < even.cost) ? odd : even;
  return cheapest?.starts ?? null;
};

/** Heights are sums of rounded coordinates. */
const ROUNDING = 1.002;

/** What the page turns of a division cost: less is better, 0 where each falls on a rest of both hands. */
export const turnCost = (
  firstBars: readonly number[],
  rate: (page: number, bar: number) => PageTurn,
  turns: EngravingOptions['pageTurns'],
): number =>
  firstBars
    .slice(1)
    .reduce((sum, bar, i) => sum + (isTurn(i + 1, turns) ? FREE_COSTS[rate(i + 1, bar).free] : 0), 0);

const FREE_COSTS: Readonly<Record<PageTurn['free'], number>> = {
  'both-hands': 0,
  'one-hand': COSTS.oneHand,
  none: COSTS.noTurn,
};

const pageCost = (
  page: number,
  nextBar: number,
  filled: number,
  rate: (page: number, bar: number) => PageTurn,
  turns: EngravingOptions['pageTurns'],
): number => {
  const loose = COSTS.looseness * (1 - Math.min(1, filled)) ** 2;
  if (!isTurn(page, turns)) return loose;
  return loose + FREE_COSTS[rate(page, nextBar).free];
};
