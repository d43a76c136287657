import type { OneTime } from '../../score/bars/one-time.ts';
import { type PlayGraph, stepsReadStraight } from '../../time/play-graph.ts';
import { groupLinked } from './linked.ts';
import type { Slot } from './slots.ts';
import { isTurn, listStretches, type Stretch } from './stretches.ts';
import { MOST_TURNS, type TimedChange, visitWaysByTime } from './ways-by-time.ts';

/** A way between two fixed points of one string's lever: where they differ, the lever moves at one of the moments. */
export interface LeverPath {
  /** Where the way begins and ends; the move may be printed at the end, not at the beginning. */
  readonly from: number;
  readonly to: number;
  readonly options: readonly number[];
}

/**
 * One matter to decide about one lever, apart from all others but for the hands' time.
 *
 * Most are one way between a note that needs the lever in one position and a note that needs it in the other. Where
 * the music jumps between two such notes, several ways meet, and the lever's position where they meet is open.
 */
export interface LeverSubproblem {
  /** Index of the string, from the lowest. */
  readonly string: number;
  readonly chains: readonly LeverPath[];
  /** Moments at which ways meet and the position is open. */
  readonly open: readonly number[];
  /** The position at a moment where it is not open. */
  readonly fixedAt: (moment: number) => number;
  /** What is played of it from note to note, where a change may be for one time of playing alone; else none. */
  readonly stretches: readonly Stretch[];
}

/** A job of one way between two notes, which is made alike at all times of playing. */
export const isSinglePath = (subproblem: LeverSubproblem): boolean =>
  isOneWay(subproblem) && subproblem.stretches.length === 0;

const isOneWay = ({ open, chains }: Pick<LeverSubproblem, 'open' | 'chains'>): boolean =>
  open.length === 0 && chains.length === 1;

/**
 * Parts the course of one lever into jobs that do not touch each other.
 *
 * @param choices positions worth considering by moment (see `candidatePositions`): one where a note decides, else those around
 */
export const listSubproblems = (
  string: number,
  choices: readonly (readonly number[])[],
  graph: PlayGraph,
): LeverSubproblem[] => {
  const isOpen = (moment: number): boolean => choices[moment]!.length > 1;
  const isMeeting = (moment: number): boolean =>
    !isOpen(moment) || graph.into[moment]!.length !== 1 || graph.outOf[moment]!.length !== 1;
  const fixedAt = (moment: number): number => choices[moment]![0]!;
  const chains: LeverPath[] = [];
  for (let from = 0; from < graph.moments; from += 1) {
    if (!isMeeting(from)) continue;
    for (const edge of graph.outOf[from]!) {
      if (!isOpen(from) && !isOpen(edge.to) && fixedAt(from) === fixedAt(edge.to)) continue;
      const options = [edge.to];
      while (!isMeeting(options.at(-1)!)) options.push(graph.outOf[options.at(-1)!]![0]!.to);
      const to = options.at(-1)!;
      if (isOpen(from) || isOpen(to) || fixedAt(from) !== fixedAt(to)) chains.push({ from, to, options });
    }
  }
  const jobs = joinChains(chains, isOpen).map((joined) => ({
    string,
    chains: joined,
    open: [...new Set(joined.flatMap(({ from, to }) => [from, to]))].filter(isOpen).sort((a, b) => a - b),
    fixedAt,
  }));
  if (stepsReadStraight(graph) !== null) return jobs.map((job) => ({ ...job, stretches: [] }));
  const stretches = listStretches(graph, (moment) => (isOpen(moment) ? null : fixedAt(moment)));
  return jobs.map((job) => ({ ...job, stretches: stretchesOf(job, stretches) }));
};

/**
 * The stretches that hold a way of a job; none where what is printed serves each time of playing. One way that is not
 * played from end to end needs no change at all: the piece ends on it.
 */
const stretchesOf = (
  job: Pick<LeverSubproblem, 'chains' | 'open'>,
  all: readonly Stretch[],
): readonly Stretch[] => {
  const steps = new Set(job.chains.map(({ from, options }) => `${from}:${options[0]}`));
  const between = new Set([...job.open, ...job.chains.flatMap(({ options }) => options.slice(0, -1))]);
  const own = all.filter(({ from, times }) => {
    const [first] = times.keys();
    return steps.has(`${from}:${first}`) || [...times.keys()].some((moment) => between.has(moment));
  });
  const turns = own.filter(isTurn).length;
  return turns > (isOneWay(job) ? 0 : MOST_TURNS) ? [] : own;
};

/** Ways that meet at an open moment, or that end at one moment, where one printed move serves them all, go together. */
const joinChains = (chains: readonly LeverPath[], isOpen: (moment: number) => boolean): LeverPath[][] =>
  groupLinked(chains, (link) => {
    const first = new Map<string, number>();
    const meet = (place: string, i: number): void => {
      const other = first.get(place);
      if (other === undefined) first.set(place, i);
      else link(i, other);
    };
    chains.forEach(({ from, to }, i) => {
      meet(`end ${to}`, i);
      if (isOpen(from)) meet(`open ${from}`, i);
      if (isOpen(to)) meet(`open ${to}`, i);
    });
  });

/** Where one change of a job is made. */
export interface SlottedChange {
  readonly slot: Slot;
  /** Where to, and for which time of playing, in a way that is not alike at all times; else null. */
  readonly byTime: ByTime | null;
}

/** A change that not every time of playing needs: made at one of them, or wherever the lever stands elsewhere (null). */
export interface ByTime {
  readonly to: 0 | 1;
  readonly time: OneTime | null;
}

/** Where the changes of a job are made, in order, and their price without what the hands' time adds. */
export interface SubproblemSolution {
  readonly changes: readonly SlottedChange[];
  readonly price: number;
}

/** Where the lever of a job can be moved, and at which price. */
export interface SlotPrices {
  readonly slotsAt: (moment: number) => readonly Slot[];
  /** For one time of playing, or each (null). */
  readonly priceAt: (slot: Slot, time: OneTime | null) => number;
  /** At the cheapest slot of a moment. */
  readonly leastPriceAt: (moment: number, time: OneTime | null) => number;
  /** What each change costs more in a way that is not alike at all times of playing. */
  readonly byTime: number;
}

/**
 * The ways to do a job, each with a price of at most `budget`.
 *
 * Every way to do it contains one of those considered, at no higher price: between two points of one position the lever
 * need not move, between two of different positions it need not move twice.
 *
 * @param most at most so many are listed; `complete` tells whether that was enough
 */
export const listSolutions = (
  subproblem: LeverSubproblem,
  prices: SlotPrices,
  budget: number,
  most: number,
): { readonly solutions: SubproblemSolution[]; readonly complete: boolean } => {
  const solutions: SubproblemSolution[] = [];
  let complete = true;
  const add = (changes: readonly SlottedChange[], price: number): boolean => {
    if (solutions.length < most)
      solutions.push({ changes: changes.toSorted((a, b) => a.slot - b.slot), price });
    else complete = false;
    return complete;
  };
  visitLabels(
    subproblem,
    (moment) => prices.leastPriceAt(moment, null),
    () => budget,
    (ends) => {
      visitChoices(ends, prices, budget, (slots, price) =>
        add(
          slots.map((slot) => ({ slot, byTime: null })),
          price,
        ),
      );
      return complete;
    },
  );
  visitWaysByTime(
    subproblem.stretches,
    (moment, time) => prices.leastPriceAt(moment, time) + prices.byTime,
    () => budget,
    (timed) => visitHands(timed, prices, budget, add),
  );
  return { solutions, complete };
};

/** All ways to share changes at known moments among the hands; answers whether to go on. */
const visitHands = (
  timed: readonly TimedChange[],
  { slotsAt, priceAt, byTime: more }: SlotPrices,
  budget: number,
  visit: (changes: readonly SlottedChange[], price: number) => boolean,
): boolean => {
  const choose = (chosen: readonly SlottedChange[], price: number): boolean => {
    if (price > budget + 1e-9) return true;
    const next = timed[chosen.length];
    if (next === undefined) return visit(chosen, price);
    const byTime = { to: next.to === 1 ? 1 : 0, time: next.time } as const;
    return slotsAt(next.moment).every((slot) =>
      choose([...chosen, { slot, byTime }], price + more + priceAt(slot, next.time)),
    );
  };
  return choose([], 0);
};

/**
 * The least price of any way to do a job.
 *
 * @param byTime what each change costs more in a way that is not alike at all times of playing
 * @param enough where a way alike at all times costs less than this, no other is looked for
 */
export const leastPrice = (
  subproblem: LeverSubproblem,
  priceAt: SlotPrices['leastPriceAt'],
  { byTime = 0, enough = 0 }: { readonly byTime?: number; readonly enough?: number } = {},
): number => {
  let least = Number.POSITIVE_INFINITY;
  visitLabels(
    subproblem,
    (moment) => priceAt(moment, null),
    () => least,
    (_, price) => {
      least = Math.min(least, price);
      return true;
    },
  );
  if (least < enough) return least;
  visitWaysByTime(
    subproblem.stretches,
    (moment, time) => priceAt(moment, time) + byTime,
    // Only what costs less is looked for.
    () => least - 1e-6,
    (_, price) => {
      least = Math.min(least, price);
      return true;
    },
  );
  return least;
};

/** The ways that end at one moment and on which the lever must move: at that moment, or on each of them before. */
interface End {
  readonly to: number;
  readonly before: readonly (readonly number[])[];
}

const endPrice = ({ to, before }: End, priceAt: (moment: number) => number): number => {
  let apart = 0;
  for (const options of before) {
    let least = Number.POSITIVE_INFINITY;
    for (const moment of options) least = Math.min(least, priceAt(moment));
    apart += least;
  }
  return Math.min(priceAt(to), apart);
};

/** All positions at the open moments that can be had within the budget; `visit` answers whether to go on. */
const visitLabels = (
  subproblem: LeverSubproblem,
  priceAt: (moment: number) => number,
  budget: () => number,
  visit: (ends: readonly End[], price: number) => boolean,
): void => {
  const labels = new Map<number, number>();
  const at = (moment: number): number | undefined =>
    subproblem.open.includes(moment) ? labels.get(moment) : subproblem.fixedAt(moment);
  const assign = (index: number): boolean => {
    const ends = moving(subproblem, at);
    const price = ends.reduce((sum, end) => sum + endPrice(end, priceAt), 0);
    if (price > budget() + 1e-9) return true;
    const moment = subproblem.open[index];
    if (moment === undefined) return visit(ends, price);
    for (const position of [0, 1]) {
      labels.set(moment, position);
      const goOn = assign(index + 1);
      labels.delete(moment);
      if (!goOn) return false;
    }
    return true;
  };
  assign(0);
};

/** The ends of the ways between known positions that differ. */
const moving = (subproblem: LeverSubproblem, at: (moment: number) => number | undefined): End[] => {
  const before = new Map<number, (readonly number[])[]>();
  for (const { from, to, options } of subproblem.chains) {
    const [start, end] = [at(from), at(to)];
    if (start === undefined || end === undefined || start === end) continue;
    const here = before.get(to) ?? [];
    here.push(options.slice(0, -1));
    before.set(to, here);
  }
  return [...before].map(([to, ways]) => ({ to, before: ways }));
};

const visitChoices = (
  ends: readonly End[],
  { slotsAt, priceAt, leastPriceAt }: SlotPrices,
  budget: number,
  visit: (slots: readonly Slot[], price: number) => boolean,
): void => {
  const rest = ends.map((end) => endPrice(end, (moment) => leastPriceAt(moment, null)));
  for (let i = rest.length - 2; i >= 0; i -= 1) rest[i]! += rest[i + 1]!;
  const chosen: Slot[] = [];
  const choose = (index: number, price: number): boolean => {
    if (price + (rest[index] ?? 0) > budget + 1e-9) return true;
    const end = ends[index];
    if (end === undefined) return visit(chosen, price);
    const goOn = (sum: number): boolean => choose(index + 1, sum);
    return eachOf(slotsAt(end.to), price, goOn) && apart(end.before, 0, price, goOn);
  };
  const eachOf = (slots: readonly Slot[], price: number, then: (price: number) => boolean): boolean => {
    for (const slot of slots) {
      chosen.push(slot);
      const goOn = then(price + priceAt(slot, null));
      chosen.pop();
      if (!goOn) return false;
    }
    return true;
  };
  const apart = (
    ways: readonly (readonly number[])[],
    way: number,
    price: number,
    then: (price: number) => boolean,
  ): boolean => {
    const options = ways[way];
    if (options === undefined) return then(price);
    if (price > budget + 1e-9) return true;
    return options.every((moment) =>
      eachOf(slotsAt(moment), price, (sum) => apart(ways, way + 1, sum, then)),
    );
  };
  choose(0, 0);
};
