import { isStraight, type Job, type JobSolution, leastPrice, listSolutions } from './jobs.ts';
import { sweepGroup } from './sweep.ts';
import { type CourseMove, findHurried, type GroupSearch, type LeverTask, type PlacedChange } from './task.ts';

export interface GroupCourse {
  readonly moves: readonly CourseMove[];
  readonly cost: number;
  /** Whether it was proved that no course is cheaper; else the search was given up. */
  readonly proved: boolean;
}

const MOST_SOLUTIONS = 3000;
const MOST_NODES = 100_000;

/**
 * The cheapest course for jobs that may come into each other's way.
 *
 * The bound below is what each job costs alone, the bound above a course found by placing one job after the other and
 * placing each anew. Where they meet that course is the best. Else only ways within the gap matter; they are searched
 * moment by moment where each job is one way (see `sweepGroup`), else job by job with both bounds.
 */
export const solveGroup = (jobs: readonly Job[], task: LeverTask): GroupCourse => {
  const [only] = jobs;
  if (jobs.length === 1 && isStraight(only!)) return solveAlone(only!, task);
  const least = jobs.map((job) => leastPrice(job, (moment) => task.priceAt(job.string, moment)));
  const below = least.reduce((sum, each) => sum + each, 0);
  const first = placeInTurn(jobs, least, task);
  const gap = first.cost - below;
  if (gap <= 1e-6) return first;
  const lists = jobs.map((job, i) => listWays(job, task, least[i]! + gap));
  const complete = lists.every((list) => list.complete);
  const ways = lists.map((list) => list.solutions);
  const found =
    jobs.every(isStraight) && !jumpsBetween(ways, task)
      ? sweepGroup(jobs, ways, task, first.cost)
      : searchGroup(jobs, ways, task, first.cost);
  const best = found.moves === null ? first : courseOf(found.moves, task);
  return { ...best, proved: found.complete && complete };
};

const solveAlone = ({ string, chains }: Job, task: LeverTask): GroupCourse => {
  const options = chains[0]!.options;
  const moment = options.reduce((best, each) =>
    task.priceAt(string, each) < task.priceAt(string, best) ? each : best,
  );
  const move = { string, moment, hurried: false };
  return { moves: [move], cost: task.priceAt(string, moment), proved: true };
};

const listWays = (job: Job, task: LeverTask, budget: number) =>
  listSolutions(
    job,
    (moment) => task.priceAt(job.string, moment),
    budget,
    isStraight(job) ? Number.POSITIVE_INFINITY : MOST_SOLUTIONS,
  );

const courseOf = (placed: readonly PlacedChange[], task: LeverTask): GroupCourse => {
  const hurried = findHurried(placed, task.near);
  const moves = placed.map((move, i) => ({ ...move, hurried: hurried[i]! }));
  return { moves, cost: costOf(placed, task), proved: true };
};

const costOf = (placed: readonly PlacedChange[], task: LeverTask): number =>
  placed.reduce((sum, { string, moment }) => sum + task.priceAt(string, moment), 0) +
  task.noTime * findHurried(placed, task.near).filter(Boolean).length;

/** How far above its least price a job's ways are tried when one is placed after the other. */
const SLACK = 3;
const MOST_TRIED = 300;

/** A good course: each job placed where it is cheapest beside those placed, then each placed anew. */
const placeInTurn = (jobs: readonly Job[], least: readonly number[], task: LeverTask): GroupCourse => {
  const ways = jobs.map((job, i) => {
    const budget = isStraight(job) ? Number.POSITIVE_INFINITY : SLACK * least[i]!;
    const price = (moment: number): number => task.priceAt(job.string, moment);
    return listSolutions(job, price, budget, isStraight(job) ? Number.POSITIVE_INFINITY : MOST_TRIED)
      .solutions;
  });
  const chosen = new Array<readonly number[]>(jobs.length).fill([]);
  const placed = (): PlacedChange[] =>
    chosen.flatMap((moments, i) => moments.map((moment) => ({ string: jobs[i]!.string, moment })));
  for (let pass = 0; pass < 3; pass += 1) {
    let changed = false;
    ways.forEach((options, i) => {
      const before = chosen[i]!;
      chosen[i] = [];
      chosen[i] = cheapestBeside(placed(), jobs[i]!.string, options, task);
      changed ||= before.join() !== chosen[i].join();
    });
    if (!changed) break;
  }
  return courseOf(placed(), task);
};

const cheapestBeside = (
  others: readonly PlacedChange[],
  string: number,
  ways: readonly JobSolution[],
  task: LeverTask,
): readonly number[] => {
  const taken = new Set(others.flatMap(({ moment }) => [...task.close(moment)]));
  let best: readonly number[] = [];
  let least = Number.POSITIVE_INFINITY;
  for (const { moments, price } of ways) {
    const close = moments.filter((moment) => taken.has(moment)).length;
    const own = moments.map((moment) => ({ string, moment }));
    const hurry = moments.length > 1 ? findHurried(own, task.near).filter(Boolean).length : 0;
    const cost = price + task.noTime * (close + hurry);
    if (cost < least) [best, least] = [moments, cost];
  }
  return best;
};

/** Whether two ways come close to each other over a jump. */
const jumpsBetween = (ways: readonly (readonly JobSolution[])[], task: LeverTask): boolean => {
  const used = new Set(ways.flatMap((each) => each.flatMap(({ moments }) => moments)));
  return [...used].some((moment) =>
    [...task.near(moment)].some(([other, by]) => by === 'by-jump' && used.has(other)),
  );
};

/** Tries all ways, job by job; what is placed never costs less when more is placed, so a dear beginning is left. */
const searchGroup = (
  jobs: readonly Job[],
  ways: readonly (readonly JobSolution[])[],
  task: LeverTask,
  bound: number,
): GroupSearch => {
  const order = jobs.map((_, i) => i).sort((a, b) => ways[a]!.length - ways[b]!.length);
  const rest = order.map((i) => Math.min(...ways[i]!.map(({ price }) => price)));
  for (let i = rest.length - 2; i >= 0; i -= 1) rest[i]! += rest[i + 1]!;
  const placed: PlacedChange[] = [];
  let [best, least, nodes]: [PlacedChange[] | null, number, number] = [null, bound, 0];
  const place = (depth: number): void => {
    nodes += 1;
    if (nodes > MOST_NODES) return;
    const cost = costOf(placed, task);
    if (cost + (rest[depth] ?? 0) >= least - 1e-6) return;
    const job = order[depth];
    if (job === undefined) {
      [best, least] = [[...placed], cost];
      return;
    }
    for (const { moments } of ways[job]!) {
      for (const moment of moments) placed.push({ string: jobs[job]!.string, moment });
      place(depth + 1);
      placed.length -= moments.length;
    }
  };
  place(0);
  return { moves: best, complete: nodes <= MOST_NODES };
};
