import { findTooSoon, type LeverTask, type PlacedChange, type ScheduledLeverChange } from './lever-task.ts';
import { searchAllWays } from './schedule-all-ways.ts';
import { scheduleOnePath } from './schedule-one-path.ts';
import type { Slot } from './slots.ts';
import {
  isSinglePath,
  type LeverSubproblem,
  leastPrice,
  listSolutions,
  type SlotPrices,
  type SubproblemSolution,
} from './subproblems.ts';

export interface GroupSchedule {
  readonly moves: readonly ScheduledLeverChange[];
  readonly cost: number;
  /** Whether it was proved that no course is cheaper; else the search was given up. */
  readonly provenOptimal: boolean;
}

const MOST_SOLUTIONS = 3000;

/**
 * The cheapest course for jobs that may come into each other's way.
 *
 * The bound below is what each job costs alone, the bound above a course found by placing one job after the other and
 * placing each anew. Where they meet that course is the best. Else only ways within the gap matter; they are searched
 * moment by moment where each job is one way (see `scheduleOnePath`), else job by job with both bounds.
 */
export const scheduleSubproblems = (
  subproblems: readonly LeverSubproblem[],
  task: LeverTask,
): GroupSchedule => {
  const [only] = subproblems;
  if (subproblems.length === 1 && isSinglePath(only!)) return solveAlone(only!, task);
  const least = subproblems.map((subproblem) =>
    leastPrice(subproblem, pricesOf(subproblem, task).leastPriceAt),
  );
  const below = least.reduce((sum, each) => sum + each, 0);
  const first = placeInTurn(subproblems, task);
  const gap = first.cost - below;
  if (gap <= 1e-6) return first;
  const lists = subproblems.map((subproblem, i) => listWays(subproblem, task, least[i]! + gap));
  const complete = lists.every((list) => list.complete);
  const ways = lists.map((list) => list.solutions);
  const found =
    subproblems.every(isSinglePath) && !jumpsBetween(ways, task)
      ? scheduleOnePath(subproblems, ways, task, first.cost)
      : searchAllWays(subproblems, ways, task, first.cost);
  const best = found.moves === null ? first : courseOf(found.moves, task);
  return { ...best, provenOptimal: found.complete && complete };
};

/** Where and at which price the lever of a job can be moved. */
const pricesOf = ({ string }: LeverSubproblem, task: LeverTask): SlotPrices => ({
  slotsAt: (moment) => task.slotsAt(string, moment),
  priceAt: (slot) => task.priceAt(string, slot),
  leastPriceAt: (moment) => task.leastPriceAt(string, moment),
});

const solveAlone = ({ string, chains }: LeverSubproblem, task: LeverTask): GroupSchedule => {
  const slot = chains[0]!.options
    .flatMap((moment) => task.slotsAt(string, moment))
    .reduce((best, each) => (task.priceAt(string, each) < task.priceAt(string, best) ? each : best));
  const move = { string, slot, tooSoon: false };
  return { moves: [move], cost: task.priceAt(string, slot), provenOptimal: true };
};

const listWays = (subproblem: LeverSubproblem, task: LeverTask, budget: number) =>
  listSolutions(
    subproblem,
    pricesOf(subproblem, task),
    budget,
    isSinglePath(subproblem) ? Number.POSITIVE_INFINITY : MOST_SOLUTIONS,
  );

const courseOf = (placed: readonly PlacedChange[], task: LeverTask): GroupSchedule => {
  const tooSoon = findTooSoon(placed, task.tooSoonAfter);
  const moves = placed.map((move, i) => ({ ...move, tooSoon: tooSoon[i]! }));
  return { moves, cost: costOf(placed, task), provenOptimal: true };
};

const costOf = (placed: readonly PlacedChange[], task: LeverTask): number =>
  placed.reduce((sum, { string, slot }) => sum + task.priceAt(string, slot), 0) +
  task.noTime * findTooSoon(placed, task.tooSoonAfter).filter(Boolean).length;

/** A good course: each job placed where it is cheapest beside those placed, then each placed anew. */
const placeInTurn = (subproblems: readonly LeverSubproblem[], task: LeverTask): GroupSchedule => {
  const chosen = new Array<readonly Slot[]>(subproblems.length).fill([]);
  const placed = (): PlacedChange[] =>
    chosen.flatMap((slots, i) => slots.map((slot) => ({ string: subproblems[i]!.string, slot })));
  for (let pass = 0; pass < 3; pass += 1) {
    let changed = false;
    subproblems.forEach((subproblem, i) => {
      const before = chosen[i]!;
      chosen[i] = [];
      chosen[i] = cheapestBeside(placed(), subproblem, task);
      changed ||= before.join() !== chosen[i].join();
    });
    if (!changed) break;
  }
  return courseOf(placed(), task);
};

/** How far above its least price a job's ways are tried: farther where its changes leave each other no time. */
const SLACKS = [1, 3];
const MOST_TRIED = 300;

const cheapestBeside = (
  others: readonly PlacedChange[],
  subproblem: LeverSubproblem,
  task: LeverTask,
): readonly Slot[] => {
  const { string } = subproblem;
  const prices = pricesBeside(others, subproblem, task);
  const least = leastPrice(subproblem, prices.leastPriceAt);
  let best: readonly Slot[] = [];
  let cheapest = Number.POSITIVE_INFINITY;
  for (const slack of SLACKS) {
    const { solutions } = listSolutions(subproblem, prices, slack * least, MOST_TRIED);
    for (const { slots, price } of solutions) {
      const own = slots.map((slot) => ({ string, slot }));
      const hurry = slots.length > 1 ? findTooSoon(own, task.tooSoonAfter).filter(Boolean).length : 0;
      const cost = price + task.noTime * hurry;
      if (cost < cheapest) [best, cheapest] = [slots, cost];
    }
    if (cheapest - least < task.noTime) break;
  }
  return best;
};

/** The prices of a job where other changes stand: a slot for which these leave no time is dearer by that. */
const pricesBeside = (
  others: readonly PlacedChange[],
  subproblem: LeverSubproblem,
  task: LeverTask,
): SlotPrices => {
  const taken = new Set(others.flatMap(({ slot }) => [...task.tooCloseTo(slot)]));
  const { slotsAt, priceAt } = pricesOf(subproblem, task);
  const priceBeside = (slot: Slot): number => priceAt(slot) + (taken.has(slot) ? task.noTime : 0);
  return {
    slotsAt,
    priceAt: priceBeside,
    leastPriceAt: (moment) =>
      slotsAt(moment).reduce((least, slot) => Math.min(least, priceBeside(slot)), Number.POSITIVE_INFINITY),
  };
};

/** Whether two ways come close to each other over a jump. */
const jumpsBetween = (ways: readonly (readonly SubproblemSolution[])[], task: LeverTask): boolean => {
  const used = new Set(ways.flatMap((each) => each.flatMap(({ slots }) => slots)));
  return [...used].some((slot) =>
    [...task.tooSoonAfter(slot)].some(([other, by]) => by === 'by-jump' && used.has(other)),
  );
};
