import type { FootTask } from './foot-changes.ts';
import {
  MOMENTS_A_STOP,
  type SearchStop,
  type SearchTrace,
  type StateFilter,
  searchOn,
} from './foot-search.ts';
import type { FootHistory, FootState } from './foot-state.ts';

/** An earlier search, and where its moves cost what they cost now; in all but that and its choices its task was the same. */
export interface KnownSearch {
  readonly trace: SearchTrace;
  readonly costsAlike: (moment: number) => boolean;
}

/**
 * Searches anew around the moments that differ from an earlier search alone.
 *
 * What came before the first of them is as it was. Once the same states come out again, and each by the same amount dearer
 * or cheaper than before, all that follows is as it was too, up to the next moment that differs: prices are added
 * exactly, so that of equal courses the same is taken as by a search from the start.
 */
export const searchAgain = (
  task: FootTask,
  choices: SearchTrace['choices'],
  keep: StateFilter,
  { trace, costsAlike }: KnownSearch,
): SearchTrace => {
  const isAlike = (moment: number): boolean =>
    choices[moment] === trace.choices[moment] &&
    // Where the choices change something can happen.
    choices[moment - 1] === trace.choices[moment - 1] &&
    costsAlike(moment);
  const nextDifference = (from: number): number => {
    let moment = from;
    while (moment < task.graph.moments && isAlike(moment)) moment += 1;
    return moment;
  };
  let { stops, end } = trace;
  let different = nextDifference(0);
  while (different < task.graph.moments) {
    const first = Math.floor(different / MOMENTS_A_STOP);
    const anew: SearchStop[] = [];
    const joined: { shift: StateShift | null } = { shift: null };
    const reached = searchOn(task, choices, keep, first * MOMENTS_A_STOP, stops[first]!, (stop, moment) => {
      joined.shift = moment > different ? shiftBetween(stops[moment / MOMENTS_A_STOP]!, stop) : null;
      if (joined.shift === null) anew.push(stop);
      return joined.shift === null;
    });
    const next = first + anew.length;
    stops = [...stops.slice(0, first), ...anew, ...shiftStops(stops.slice(next), joined.shift)];
    end = reached ?? shiftStates(end, joined.shift);
    different = reached === null ? nextDifference(next * MOMENTS_A_STOP) : task.graph.moments;
  }
  return { choices, stops, end };
};

/** What a state of the earlier search is now: it began otherwise, at another cost. */
type StateShift = (state: FootState) => FootState;

const shiftStates = (states: readonly FootState[], shift: StateShift | null): readonly FootState[] =>
  shift === null || shift === AS_BEFORE ? states : states.map(shift);

const shiftStops = (stops: readonly SearchStop[], shift: StateShift | null): readonly SearchStop[] =>
  shift === null || shift === AS_BEFORE
    ? stops
    : stops.map(({ states, asleep }) => ({ states: states.map(shift), asleep }));

const AS_BEFORE: StateShift = (state) => state;

/** What makes states that followed from those at a stop follow from the same ones as they are now; null where these are others. */
const shiftBetween = (before: SearchStop, now: SearchStop): StateShift | null => {
  const more = (now.states[0]?.cost ?? 0) - (before.states[0]?.cost ?? 0);
  const meet =
    before.asleep === now.asleep &&
    before.states.length === now.states.length &&
    before.states.every(
      (state, i) => areAlike(state, now.states[i]!) && now.states[i]!.cost - state.cost === more,
    );
  if (!meet) return null;
  const isAsBefore = before.states.every(
    (state, i) =>
      now.states[i]!.history === state.history && now.states[i]!.initial === state.initial && more === 0,
  );
  return isAsBefore ? AS_BEFORE : shiftFrom(before.states, now.states, more);
};

const areAlike = (a: FootState, b: FootState): boolean =>
  a.positions === b.positions &&
  a.since === b.since &&
  a.sinceRead === b.sinceRead &&
  a.open.key === b.open.key;

/** Each state comes from the one whose history it goes on with; of those without one, from the one that began alike. */
const shiftFrom = (before: readonly FootState[], now: readonly FootState[], more: number): StateShift => {
  const begins = new Map<FootHistory, Pick<FootState, 'initial' | 'history'>>();
  const beginsStill = new Map<number, Pick<FootState, 'initial' | 'history'>>();
  before.forEach(({ initial, history }, i) => {
    if (history === null) beginsStill.set(initial, now[i]!);
    else begins.set(history, now[i]!);
  });
  return (state) => {
    const later: FootHistory[] = [];
    let trail = state.history;
    while (trail !== null && !begins.has(trail)) {
      later.push(trail);
      trail = trail.earlier;
    }
    const start = trail === null ? beginsStill.get(state.initial)! : begins.get(trail)!;
    let { history } = start;
    for (const each of later.reverse()) {
      history = { ...each, earlier: history };
      begins.set(each, { initial: start.initial, history });
    }
    return { ...state, initial: start.initial, cost: state.cost + more, history };
  };
};
