import {
  findTooSoon,
  type LeverTask,
  type PlacedChange,
  priceOfChange,
  type ScheduledLeverChange,
} from './lever-task.ts';
import { searchAllWays } from './schedule-all-ways.ts';
import { scheduleOnePath } from './schedule-one-path.ts';
import {
  isSinglePath,
  type LeverSubproblem,
  leastPrice,
  listSolutions,
  type SlotPrices,
  type SlottedChange,
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
    leastPrice(subproblem, pricesOf(subproblem, task).leastPriceAt, { byTime: task.byTime }),
  );
  const below = least.reduce((sum, each) => sum + each, 0);
  const first = findGoodCourse(subproblems, task);
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
  priceAt: (slot, time) => task.priceAt(string, slot, time),
  leastPriceAt: (moment, time) => task.leastPriceAt(string, moment, time),
  byTime: task.byTime,
});

const solveAlone = ({ string, chains }: LeverSubproblem, task: LeverTask): GroupSchedule => {
  const slot = chains[0]!.options
    .flatMap((moment) => task.slotsAt(string, moment))
    .reduce((best, each) =>
      task.priceAt(string, each, null) < task.priceAt(string, best, null) ? each : best,
    );
  const move = { string, slot, byTime: null, tooSoon: false };
  return { moves: [move], cost: task.priceAt(string, slot, null), provenOptimal: true };
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
  placed.reduce((sum, change) => sum + priceOfChange(change, task), 0) +
  task.noTime * findTooSoon(placed, task.tooSoonAfter).filter(Boolean).length;

/** A good course, with changes for one time of playing alone only where they are worth it beside the others. */
const findGoodCourse = (subproblems: readonly LeverSubproblem[], task: LeverTask): GroupSchedule => {
  const course = placeInTurn(subproblems, task);
  if (subproblems.every(({ stretches }) => stretches.length === 0)) return course;
  const alike = placeInTurn(
    subproblems.map((subproblem) => ({ ...subproblem, stretches: [] })),
    task,
  );
  return alike.cost < course.cost ? alike : course;
};

/** Each job placed where it is cheapest beside those placed, then each placed anew. */
const placeInTurn = (subproblems: readonly LeverSubproblem[], task: LeverTask): GroupSchedule => {
  const chosen = new Array<readonly SlottedChange[]>(subproblems.length).fill([]);
  const placed = (): PlacedChange[] =>
    chosen.flatMap((changes, i) => changes.map((change) => ({ ...change, string: subproblems[i]!.string })));
  for (let pass = 0; pass < 3; pass += 1) {
    let changed = false;
    subproblems.forEach((subproblem, i) => {
      const before = chosen[i]!;
      chosen[i] = [];
      chosen[i] = cheapestBeside(placed(), subproblem, task);
      changed ||= JSON.stringify(before) !== JSON.stringify(chosen[i]);
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
): readonly SlottedChange[] => {
  const { string } = subproblem;
  const prices = pricesBeside(others, subproblem, task);
  const least = leastPrice(subproblem, prices.leastPriceAt, { byTime: task.byTime });
  let best: readonly SlottedChange[] = [];
  let cheapest = Number.POSITIVE_INFINITY;
  for (const slack of SLACKS) {
    const { solutions } = listSolutions(subproblem, prices, slack * least, MOST_TRIED);
    for (const { changes, price } of solutions) {
      const own = changes.map((change) => ({ ...change, string }));
      const hurry = own.length > 1 ? findTooSoon(own, task.tooSoonAfter).filter(Boolean).length : 0;
      const cost = price + task.noTime * hurry;
      if (cost < cheapest) [best, cheapest] = [changes, cost];
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
  const { slotsAt, priceAt, byTime } = pricesOf(subproblem, task);
  const priceBeside: SlotPrices['priceAt'] = (slot, time) =>
    priceAt(slot, time) + (taken.has(slot) ? task.noTime : 0);
  return {
    slotsAt,
    priceAt: priceBeside,
    leastPriceAt: (moment, time) =>
      slotsAt(moment).reduce(
        (least, slot) => Math.min(least, priceBeside(slot, time)),
        Number.POSITIVE_INFINITY,
      ),
    byTime,
  };
};

/** Whether two ways come close to each other over a jump. */
const jumpsBetween = (ways: readonly (readonly SubproblemSolution[])[], task: LeverTask): boolean => {
  const used = new Set(
    ways.flatMap((each) => each.flatMap(({ changes }) => changes.map(({ slot }) => slot))),
  );
  return [...used].some((slot) =>
    [...task.tooSoonAfter(slot)].some(([other, by]) => by === 'by-jump' && used.has(other)),
  );
};
