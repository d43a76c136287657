import type { FootPositions } from './foot-positions.ts';
import type { FootHistory, FootState } from './foot-state.ts';

/** The states after a moment. */
interface Checkpoint {
  readonly moment: number;
  readonly states: readonly FootState[];
}

/** A search that followed all states through the part. */
export interface SearchTrace {
  /** What it chose from at each moment. */
  readonly choices: readonly (readonly FootPositions[])[];
  /** States on the way, in order. */
  readonly checkpoints: readonly Checkpoint[];
  readonly winner: FootState;
}

/** The best course, and the trace; null where the search ended on an earlier one's. */
export interface TracedSearch {
  readonly winner: FootState;
  readonly trace: SearchTrace | null;
}

/** A search that was made before, and the moments before and after which the task is as it was then. */
export interface EarlierSearch {
  readonly trace: SearchTrace;
  readonly first: number;
  readonly last: number;
}

/** What a search begins with, and when it may end; it tells its states as it goes on. */
export interface Following {
  readonly from: Checkpoint;
  readonly isOver: (moment: number, states: readonly FootState[]) => boolean;
}

const START: Checkpoint = { moment: -1, states: [] };

export const FROM_THE_START: Following = { from: START, isOver: () => false };

/** Moments from one checkpoint to the next. */
const APART = 4;

/** The state of least cost; of equal ones the first. */
export const cheapestOf = (states: readonly FootState[]): FootState =>
  states.reduce((a, b) => (b.cost < a.cost ? b : a));

/**
 * Makes a search and keeps its trace. With an earlier one it begins where the two come to differ, and ends as soon as all
 * its states are those of the earlier one again, each at the same distance in cost. From there on both go the same way:
 * what a state comes to goes by nothing but what makes it one kind, all comparisons are of costs with each other, and sums
 * of prices are exact. So the best course is the earlier one's from there on.
 *
 * @param choices what the search chooses from at each moment
 */
export const traceSearch = (
  choices: SearchTrace['choices'],
  search: (following: Following) => readonly FootState[],
  earlier: EarlierSearch | null,
): TracedSearch => {
  const known = earlier?.trace.checkpoints ?? [];
  const begin = known.findLastIndex(({ moment }) => moment < earlier!.first);
  const checkpoints = known.slice(0, begin + 1);
  const found: { rejoined: FootState | null } = { rejoined: null };
  let next = begin + 1;
  const ends = search({
    from: known[begin] ?? START,
    isOver: (moment, states) => {
      while (next < known.length && known[next]!.moment < moment) next += 1;
      const then = known[next];
      if (then?.moment === moment && moment > earlier!.last) {
        found.rejoined = rejoin(states, then.states, earlier!.trace.winner);
      }
      if (moment >= (checkpoints.at(-1)?.moment ?? 0) + APART) checkpoints.push({ moment, states });
      return found.rejoined !== null;
    },
  });
  if (found.rejoined !== null) return { winner: found.rejoined, trace: null };
  const winner = cheapestOf(ends);
  return { winner, trace: { choices, checkpoints, winner } };
};

/** The earlier course from a moment on, after the way by which the new search came there; null where the states differ. */
const rejoin = (
  states: readonly FootState[],
  then: readonly FootState[],
  winner: FootState,
): FootState | null => {
  const more = costApart(states, then);
  if (more === null) return null;
  const { place, since } = placeOnCourse(winner, then);
  const { initial, history } = states[place]!;
  return { ...winner, initial, cost: winner.cost + more, history: appendTo(history, since) };
};

/** By how much all states cost more than those of the same kinds; null where kinds or differences vary. */
const costApart = (states: readonly FootState[], before: readonly FootState[]): number | null => {
  if (states.length !== before.length) return null;
  const more = states[0]!.cost - before[0]!.cost;
  return states.every((a, i) => isSameKind(a, before[i]!) && a.cost - before[i]!.cost === more) ? more : null;
};

const isSameKind = (a: FootState, b: FootState): boolean =>
  a.positions === b.positions &&
  a.since === b.since &&
  a.sinceRead === b.sinceRead &&
  a.open.key === b.open.key;

/** Which of the states at a moment a course went through, and what was decided since, newest first. */
const placeOnCourse = (
  { initial, history }: FootState,
  states: readonly FootState[],
): { readonly place: number; readonly since: readonly FootHistory[] } => {
  const since: FootHistory[] = [];
  for (let trail = history; ; trail = trail.earlier) {
    const place = states.findIndex((state) => state.history === trail && state.initial === initial);
    if (place >= 0) return { place, since };
    if (trail === null) throw new Error('a course cannot be traced back');
    since.push(trail);
  }
};

const appendTo = (history: FootHistory | null, newestFirst: readonly FootHistory[]): FootHistory | null =>
  newestFirst.reduceRight<FootHistory | null>((earlier, each) => ({ ...each, earlier }), history);
