import { hasRested } from '../../time/rested.ts';
import type { GroupSearch, LeverTask } from './lever-task.ts';
import type { LeverSubproblem, SubproblemSolution } from './subproblems.ts';

/** One lever to be moved once, at one of several moments. */
interface Change {
  readonly string: number;
  /** In order, with the price at each. */
  readonly moments: readonly number[];
  readonly prices: readonly number[];
  /** The least price from each of the moments on. */
  readonly leastFrom: readonly number[];
  /** Changes, by index, that need not be made after this one. */
  readonly first: number[];
}

interface State {
  /** Changes that could have been made but were not, by index. */
  readonly waiting: readonly number[];
  /** Line seconds of the last change. */
  readonly last: number;
  readonly cost: number;
  readonly trail: Trail | null;
}

interface Trail {
  readonly string: number;
  readonly moment: number;
  readonly earlier: Trail | null;
}

/** More states than this at one moment are cut to the cheapest, and the course is no longer proved to be the best. */
const MOST_STATES = 4000;
/** After so many states in all only few are followed, and after twice as many the search is given up. */
const MANY_STATES_IN_ALL = 100_000;
const FEW_STATES = 100;

/**
 * The cheapest course of changes that are each made once, in a straight run of the music.
 *
 * A dynamic programme over the moments, exact: its state is which of the changes in reach still wait, and when the
 * last was made. Two things keep it small. A state is left when its cost and the least prices of what waits and of what
 * is to come reach the cost of a course that is known. And of two changes whose exchange never saves anything, the one
 * that comes first in the list is made first: exchanging two changes keeps the moments, so the hand's time stays the
 * same; and as each exchange brings the changes nearer to the order of the list, exchanging comes to an end.
 */
export const scheduleOnePath = (
  subproblems: readonly LeverSubproblem[],
  ways: readonly (readonly SubproblemSolution[])[],
  task: LeverTask,
  bound: number,
): GroupSearch => {
  const changes = listChanges(subproblems, ways, task);
  const moments = [...new Set(changes.flatMap((change) => change.moments))].sort((a, b) => a - b);
  let toCome = changes.reduce((sum, change) => sum + change.leastFrom[0]!, 0);
  let states: State[] = [{ waiting: [], last: Number.NEGATIVE_INFINITY, cost: 0, trail: null }];
  let opened = 0;
  let seen = 0;
  let complete = true;
  for (const moment of moments) {
    const opening: number[] = [];
    for (; changes[opened]?.moments[0] === moment; opened += 1) {
      opening.push(opened);
      toCome -= changes[opened]!.leastFrom[0]!;
    }
    const next = new Map<string, State>();
    const keep = (after: State): boolean => {
      const key = keyOf(after.waiting, after.last, moment, task);
      const known = next.get(key);
      if (known === undefined || after.cost < known.cost) next.set(key, after);
      seen += 1;
      return seen < 2 * MANY_STATES_IN_ALL;
    };
    for (const state of states) {
      const here = { ...state, waiting: [...state.waiting, ...opening] };
      if (!changeAt({ state: here, moment, changes, task, bound: bound - toCome - 1e-6, keep })) {
        return { moves: null, complete: false };
      }
    }
    states = dropDearer(next, moment, changes, task);
    const most = seen < MANY_STATES_IN_ALL ? MOST_STATES : FEW_STATES;
    if (states.length > most) {
      complete = false;
      states = cheapest(states, most, changes, moment);
    }
  }
  const [best] = states.sort((a, b) => a.cost - b.cost);
  return { moves: best === undefined ? null : readTrail(best.trail), complete };
};

/** The states that promise to cost least: with the least prices of what still waits. */
const cheapest = (
  states: readonly State[],
  most: number,
  changes: readonly Change[],
  moment: number,
): State[] => {
  const promise = ({ cost, waiting }: State): number =>
    waiting.reduce((sum, i) => {
      const { moments, leastFrom } = changes[i]!;
      return sum + leastFrom[firstFrom(moments, moment + 1)]!;
    }, cost);
  return states
    .map((state) => ({ state, promise: promise(state) }))
    .sort((a, b) => a.promise - b.promise)
    .slice(0, most)
    .map(({ state }) => state);
};

const keyOf = (waiting: readonly number[], last: number, moment: number, task: LeverTask): string =>
  `${waiting.join()};${isHandRested(last, moment, task) ? '' : last}`;

/** Leaves out states that another betters: it has done one change more for no more than that change will cost at least. */
const dropDearer = (
  states: ReadonlyMap<string, State>,
  moment: number,
  changes: readonly Change[],
  task: LeverTask,
): State[] =>
  [...states.values()].filter(({ waiting, last, cost }) =>
    waiting.every((change) => {
      const fewer = waiting.filter((each) => each !== change);
      const further = states.get(keyOf(fewer, last, moment, task));
      const { moments, leastFrom } = changes[change]!;
      return further === undefined || further.cost > cost + leastFrom[firstFrom(moments, moment + 1)]! + 1e-9;
    }),
  );

const listChanges = (
  subproblems: readonly LeverSubproblem[],
  ways: readonly (readonly SubproblemSolution[])[],
  task: LeverTask,
): Change[] => {
  const changes = subproblems.map((subproblem, i): Change & Pick<LeverSubproblem, 'chains'> => {
    const kept = [...ways[i]!].sort((a, b) => a.moments[0]! - b.moments[0]!);
    const prices = kept.map(({ price }) => price);
    const leastFrom = [...prices];
    for (let at = leastFrom.length - 2; at >= 0; at -= 1) {
      leastFrom[at] = Math.min(leastFrom[at]!, leastFrom[at + 1]!);
    }
    const moments = kept.map((way) => way.moments[0]!);
    return { string: subproblem.string, moments, prices, leastFrom, first: [], chains: subproblem.chains };
  });
  changes.sort(
    (a, b) => a.moments[0]! - b.moments[0]! || a.moments.at(-1)! - b.moments.at(-1)! || a.string - b.string,
  );
  const possible = changes.map(({ chains }) => new Set(chains[0]!.options));
  changes.forEach((late, j) => {
    for (let i = 0; i < j; i += 1) {
      if (changes[i]!.moments.at(-1)! < late.moments[0]!) continue;
      const isPossible = { early: possible[i]!, late: possible[j]! };
      if (maySortBefore(changes[i]!, late, isPossible, task)) late.first.push(i);
    }
  });
  return changes;
};

/**
 * Whether making `early` first is never dearer: for any two moments at which the changes could be made in the other
 * order, both could be made in this order too, and the sum of the prices is no higher.
 *
 * @param possible all moments at which each could be made at all, dear ones included
 */
const maySortBefore = (
  early: Change,
  late: Change,
  possible: { readonly early: ReadonlySet<number>; readonly late: ReadonlySet<number> },
  task: LeverTask,
): boolean => {
  const more = (moment: number): number =>
    task.priceAt(early.string, moment) - task.priceAt(late.string, moment);
  let most = Number.NEGATIVE_INFINITY;
  let next = 0;
  for (const moment of early.moments) {
    for (; next < late.moments.length && late.moments[next]! < moment; next += 1) {
      const other = late.moments[next]!;
      most = possible.early.has(other) ? Math.max(most, more(other)) : Number.POSITIVE_INFINITY;
    }
    if (next > 0 && (!possible.late.has(moment) || more(moment) < most - 1e-9)) return false;
  }
  return true;
};

interface Step {
  readonly state: State;
  readonly moment: number;
  readonly changes: readonly Change[];
  readonly task: LeverTask;
  /** What the cost and the least prices of what waits must stay below. */
  readonly bound: number;
  /** Takes a state; answers whether to go on. */
  readonly keep: (state: State) => boolean;
}

/** Does nothing at a moment, or some of what waits. */
const changeAt = ({ state, moment, changes, task, bound, keep }: Step): boolean => {
  const decide = (index: number, waiting: readonly number[], now: State, rest: number): boolean => {
    if (now.cost + rest >= bound) return true;
    const change = state.waiting[index];
    if (change === undefined) return keep({ ...now, waiting });
    const { string, moments, prices, leastFrom, first } = changes[change]!;
    const at = firstFrom(moments, moment);
    const others = rest - leastFrom[at]!;
    if (moments[at] === moment && !first.some((each) => waiting.includes(each))) {
      const dearer = isHandRested(now.last, moment, task) ? 0 : task.noTime;
      const done: State = {
        waiting,
        last: task.printedSeconds[moment]!,
        cost: now.cost + prices[at]! + dearer,
        trail: { string, moment, earlier: now.trail },
      };
      if (!decide(index + 1, waiting, done, others)) return false;
    }
    const later = leastFrom[moments[at] === moment ? at + 1 : at];
    return later === undefined || decide(index + 1, [...waiting, change], now, others + later);
  };
  const rest = state.waiting.reduce((sum, i) => {
    const { moments, leastFrom } = changes[i]!;
    return sum + leastFrom[firstFrom(moments, moment)]!;
  }, 0);
  return decide(0, [], state, rest);
};

const firstFrom = (moments: readonly number[], moment: number): number => {
  let at = 0;
  while (moments[at]! < moment) at += 1;
  return at;
};

const isHandRested = (last: number, moment: number, task: LeverTask): boolean =>
  hasRested(task.printedSeconds[moment]! - last, task.leverSeconds);

const readTrail = (trail: Trail | null): { readonly string: number; readonly moment: number }[] => {
  const moves: { string: number; moment: number }[] = [];
  for (let each = trail; each !== null; each = each.earlier) {
    moves.push({ string: each.string, moment: each.moment });
  }
  return moves.reverse();
};
