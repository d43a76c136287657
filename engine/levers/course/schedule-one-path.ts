import { hasRested } from '../../time/rested.ts';
import type { GroupSearch, LeverTask, PlacedChange } from './lever-task.ts';
import { momentOfSlot, type Slot } from './slots.ts';
import type { LeverSubproblem, SubproblemSolution } from './subproblems.ts';

/** One lever to be moved once, at one of several moments by one of the hands. */
interface Change {
  readonly string: number;
  /** In order, with the price of each. */
  readonly slots: readonly Slot[];
  readonly prices: readonly number[];
  /** The least price from each of the slots on. */
  readonly leastFrom: readonly number[];
  /** Changes, by index, that need not be made after this one. */
  readonly first: number[];
}

/** Line seconds of the last change of each hand: the left, the right. */
type LastChanges = readonly [number, number];

interface State {
  /** Changes that could have been made but were not, by index. */
  readonly waiting: readonly number[];
  readonly last: LastChanges;
  readonly cost: number;
  readonly trail: Trail | null;
}

interface Trail extends PlacedChange {
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
 * A dynamic programme over the moments, exact: its state is which of the changes in reach still wait, and when each
 * hand made its last. Two things keep it small. A state is left when its cost and the least prices of what waits and of what
 * is to come reach the cost of a course that is known. And of two changes whose exchange never saves anything, the one
 * that comes first in the list is made first: exchanging two changes keeps moments and hands, so the hands' time stays the
 * same; and as each exchange brings the changes nearer to the order of the list, exchanging comes to an end.
 */
export const scheduleOnePath = (
  subproblems: readonly LeverSubproblem[],
  ways: readonly (readonly SubproblemSolution[])[],
  task: LeverTask,
  bound: number,
): GroupSearch => {
  const changes = listChanges(subproblems, ways, task);
  const moments = [...new Set(changes.flatMap(({ slots }) => slots.map(momentOfSlot)))].sort((a, b) => a - b);
  let toCome = changes.reduce((sum, change) => sum + change.leastFrom[0]!, 0);
  const never = Number.NEGATIVE_INFINITY;
  let states: State[] = [{ waiting: [], last: [never, never], cost: 0, trail: null }];
  let opened = 0;
  let seen = 0;
  let complete = true;
  for (const moment of moments) {
    const opening: number[] = [];
    for (; opened < changes.length && firstMoment(changes[opened]!) === moment; opened += 1) {
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
      const { slots, leastFrom } = changes[i]!;
      return sum + leastFrom[firstFrom(slots, moment + 1)]!;
    }, cost);
  return states
    .map((state) => ({ state, promise: promise(state) }))
    .sort((a, b) => a.promise - b.promise)
    .slice(0, most)
    .map(({ state }) => state);
};

const keyOf = (waiting: readonly number[], last: LastChanges, moment: number, task: LeverTask): string =>
  keyOfWaiting(waiting) + keyOfHands(last, moment, task);

/** Indices are letters of the key: there are never as many changes as letters. */
const keyOfWaiting = (waiting: readonly number[]): string => {
  let key = '';
  for (const change of waiting) key += String.fromCharCode(change);
  return key;
};

const keyOfHands = ([left, right]: LastChanges, moment: number, task: LeverTask): string =>
  `;${isHandRested(left, moment, task) ? '' : left},${isHandRested(right, moment, task) ? '' : right}`;

/** Leaves out states that another betters: it has done one change more for no more than that change will cost at least. */
const dropDearer = (
  states: ReadonlyMap<string, State>,
  moment: number,
  changes: readonly Change[],
  task: LeverTask,
): State[] =>
  [...states.values()].filter(({ waiting, last, cost }) => {
    const all = keyOfWaiting(waiting);
    const hands = keyOfHands(last, moment, task);
    return waiting.every((change, i) => {
      const further = states.get(all.slice(0, i) + all.slice(i + 1) + hands);
      const { slots, leastFrom } = changes[change]!;
      return further === undefined || further.cost > cost + leastFrom[firstFrom(slots, moment + 1)]! + 1e-9;
    });
  });

const firstMoment = ({ slots }: Pick<Change, 'slots'>): number => momentOfSlot(slots[0]!);
const lastMoment = ({ slots }: Pick<Change, 'slots'>): number => momentOfSlot(slots.at(-1)!);

const listChanges = (
  subproblems: readonly LeverSubproblem[],
  ways: readonly (readonly SubproblemSolution[])[],
  task: LeverTask,
): Change[] => {
  const changes = subproblems.map((subproblem, i): Change & Pick<LeverSubproblem, 'chains'> => {
    const kept = [...ways[i]!].sort((a, b) => a.changes[0]!.slot - b.changes[0]!.slot);
    const prices = kept.map(({ price }) => price);
    const leastFrom = [...prices];
    for (let at = leastFrom.length - 2; at >= 0; at -= 1) {
      leastFrom[at] = Math.min(leastFrom[at]!, leastFrom[at + 1]!);
    }
    const slots = kept.map((way) => way.changes[0]!.slot);
    return { string: subproblem.string, slots, prices, leastFrom, first: [], chains: subproblem.chains };
  });
  changes.sort(
    (a, b) => firstMoment(a) - firstMoment(b) || lastMoment(a) - lastMoment(b) || a.string - b.string,
  );
  const possible = changes.map(
    ({ string, chains }) => new Set(chains[0]!.options.flatMap((moment) => task.slotsAt(string, moment))),
  );
  changes.forEach((late, j) => {
    for (let i = 0; i < j; i += 1) {
      if (lastMoment(changes[i]!) < firstMoment(late)) continue;
      const isPossible = { early: possible[i]!, late: possible[j]! };
      if (maySortBefore(changes[i]!, late, isPossible, task)) late.first.push(i);
    }
  });
  return changes;
};

/**
 * Whether making `early` first is never dearer: for any two moments at which the changes could be made in the other
 * order, both could be made in this order too by the same hands, and the sum of the prices is no higher.
 *
 * @param possible all slots in which each could be made at all, dear ones included
 */
const maySortBefore = (
  early: Change,
  late: Change,
  possible: { readonly early: ReadonlySet<Slot>; readonly late: ReadonlySet<Slot> },
  task: LeverTask,
): boolean => {
  const more = (slot: Slot): number =>
    task.priceAt(early.string, slot, null) - task.priceAt(late.string, slot, null);
  let most = Number.NEGATIVE_INFINITY;
  let next = 0;
  for (const slot of early.slots) {
    for (; next < late.slots.length && momentOfSlot(late.slots[next]!) < momentOfSlot(slot); next += 1) {
      const other = late.slots[next]!;
      most = possible.early.has(other) ? Math.max(most, more(other)) : Number.POSITIVE_INFINITY;
    }
    if (next > 0 && (!possible.late.has(slot) || more(slot) < most - 1e-9)) return false;
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

/** Does nothing at a moment, or some of what waits, each with one of the hands. */
const changeAt = ({ state, moment, changes, task, bound, keep }: Step): boolean => {
  const seconds = task.printedSeconds[moment]!;
  const places = state.waiting.map((change) => firstFrom(changes[change]!.slots, moment));
  const decide = (index: number, waiting: readonly number[], now: State, rest: number): boolean => {
    if (now.cost + rest >= bound) return true;
    const change = state.waiting[index];
    if (change === undefined) return keep({ waiting, last: now.last, cost: now.cost, trail: now.trail });
    const { string, slots, prices, leastFrom, first } = changes[change]!;
    let at = places[index]!;
    const others = rest - leastFrom[at]!;
    const mayBeMade = !first.some((each) => waiting.includes(each));
    for (; at < slots.length && momentOfSlot(slots[at]!) === moment; at += 1) {
      if (!mayBeMade) continue;
      const slot = slots[at]!;
      const hand = slot & 1;
      const dearer = isHandRested(now.last[hand]!, moment, task) ? 0 : task.noTime;
      const done: State = {
        waiting,
        last: hand === 0 ? [seconds, now.last[1]] : [now.last[0], seconds],
        cost: now.cost + prices[at]! + dearer,
        trail: { string, slot, byTime: null, earlier: now.trail },
      };
      if (!decide(index + 1, waiting, done, others)) return false;
    }
    const later = leastFrom[at];
    return later === undefined || decide(index + 1, [...waiting, change], now, others + later);
  };
  const rest = state.waiting.reduce((sum, i, index) => sum + changes[i]!.leastFrom[places[index]!]!, 0);
  return decide(0, [], state, rest);
};

/** The place of the first slot that is not before a moment. */
const firstFrom = (slots: readonly Slot[], moment: number): number => {
  let at = 0;
  while (at < slots.length && momentOfSlot(slots[at]!) < moment) at += 1;
  return at;
};

const isHandRested = (last: number, moment: number, task: LeverTask): boolean =>
  hasRested(task.printedSeconds[moment]! - last, task.leverSeconds);

const readTrail = (trail: Trail | null): PlacedChange[] => {
  const moves: PlacedChange[] = [];
  for (let each = trail; each !== null; each = each.earlier) {
    moves.push({ string: each.string, slot: each.slot, byTime: null });
  }
  return moves.reverse();
};
