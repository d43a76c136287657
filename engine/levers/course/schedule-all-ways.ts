import { type GroupSearch, type LeverTask, makesTooSoon, type PlacedChange } from './lever-task.ts';
import type { LeverSubproblem, SubproblemSolution } from './subproblems.ts';

/** After so many ways tried the search is given up. */
const MOST_TRIED = 20_000;

/** A way to do a job, ready to be placed. */
interface ReadyWay {
  readonly changes: readonly PlacedChange[];
  /** Of all its changes. */
  readonly price: number;
}

/** Tries all ways, job by job; what is placed never costs less when more is placed, so a dear beginning is left. */
export const searchAllWays = (
  subproblems: readonly LeverSubproblem[],
  ways: readonly (readonly SubproblemSolution[])[],
  task: LeverTask,
  bound: number,
): GroupSearch => {
  const order = subproblems.map((_, i) => i).sort((a, b) => ways[a]!.length - ways[b]!.length);
  const cheapestFirst = order.map((i) =>
    ways[i]!.toSorted((a, b) => a.price - b.price).map(({ changes, price }): ReadyWay => {
      const { string } = subproblems[i]!;
      return { changes: changes.map((change) => ({ ...change, string })), price };
    }),
  );
  const rest = cheapestFirst.map(([cheapest]) => cheapest?.price ?? Number.POSITIVE_INFINITY);
  for (let i = rest.length - 2; i >= 0; i -= 1) rest[i]! += rest[i + 1]!;
  const course = startCourse(task);
  let [best, least, tried]: [PlacedChange[] | null, number, number] = [null, bound, 0];
  const place = (depth: number): void => {
    const ways = cheapestFirst[depth];
    if (ways === undefined) {
      [best, least] = [[...course.placed], course.cost()];
      return;
    }
    for (const way of ways) {
      if (tried > MOST_TRIED || isTooDear(course.cost() + way.price, depth + 1)) return;
      tried += 1;
      const takeBack = course.place(way);
      if (!isTooDear(course.cost(), depth + 1)) place(depth + 1);
      takeBack();
    }
  };
  const isTooDear = (cost: number, depth: number): boolean => cost + (rest[depth] ?? 0) >= least - 1e-6;
  place(0);
  return { moves: best, complete: tried <= MOST_TRIED };
};

/** Changes that are placed and taken back in turn, with what they cost together. */
const startCourse = ({ noTime, tooSoonAfter }: Pick<LeverTask, 'noTime' | 'tooSoonAfter'>) => {
  const placed: PlacedChange[] = [];
  const tooSoon: boolean[] = [];
  let cost = 0;
  const isHurried = (i: number, from: number): boolean => {
    for (let other = i < from ? from : 0; other < placed.length; other += 1) {
      if (other !== i && makesTooSoon(placed[other]!, placed[i]!, tooSoonAfter)) return true;
    }
    return false;
  };
  /** Marks what comes too soon now that the changes from a place on are there too. */
  const hurry = (from: number): readonly number[] => {
    const hurried: number[] = [];
    for (let i = 0; i < placed.length; i += 1) if (!tooSoon[i] && isHurried(i, from)) hurried.push(i);
    for (const i of hurried) tooSoon[i] = true;
    return hurried;
  };
  const place = ({ changes, price }: ReadyWay): (() => void) => {
    const before = { cost, count: placed.length };
    for (const change of changes) {
      placed.push(change);
      tooSoon.push(false);
    }
    const hurried = hurry(before.count);
    cost += price + noTime * hurried.length;
    return () => {
      for (const i of hurried) tooSoon[i] = false;
      cost = before.cost;
      placed.length = before.count;
      tooSoon.length = before.count;
    };
  };
  return { placed, place, cost: () => cost };
};
