import type { FootTask } from './foot-changes.ts';
import type { Departure, FootState, Landing } from './foot-state.ts';
import { mostSavedBySpacing } from './spacing.ts';

/**
 * The states that may still become the cheapest: without those that another matches in cost, in where the pedals
 * stand here and at the open jumps, and in time. What a foot that has had more time pays later, one that has had less
 * pays too; and what comfort it could save by that on its next move, the other may be ahead of it by.
 */
export const undominated = (task: FootTask, states: readonly FootState[]): readonly FootState[] => {
  const alike = groupByStands(states);
  if (alike.size === states.length) return states;
  const best = new Set<FootState>();
  for (const each of alike.values()) for (const state of bestOf(task, each)) best.add(state);
  return best.size === states.length ? states : states.filter((state) => best.has(state));
};

const groupByStands = (states: readonly FootState[]): ReadonlyMap<string | number, readonly FootState[]> => {
  const groups = new Map<string | number, FootState[]>();
  for (const state of states) {
    const stands = standsOf(state);
    const known = groups.get(stands);
    if (known === undefined) groups.set(stands, [state]);
    else known.push(state);
  }
  return groups;
};

const standsOf = ({ positions, open }: FootState): string | number => {
  if (open.key === '') return positions;
  let key = `${positions}`;
  for (const [at, landing] of open.landings) key += `;L${at}:${landing.positions}`;
  for (const [from, departure] of open.departures) key += `;D${from}:${departure.positions}`;
  return key;
};

const bestOf = (task: FootTask, states: readonly FootState[]): readonly FootState[] => {
  if (states.length === 1) return states;
  const best: FootState[] = [];
  for (const state of inOrderOfCost(states)) {
    if (!best.some((other) => hasNoLessTime(other, state) && isAhead(task, other, state))) best.push(state);
  }
  return best;
};

/** Of equal ones the first stands first; hardly ever is there more to do than to see that all stand so already. */
const inOrderOfCost = (states: readonly FootState[]): readonly FootState[] =>
  states.every((state, place) => place === 0 || states[place - 1]!.cost <= state.cost)
    ? states
    : states.toSorted((a, b) => a.cost - b.cost);

const isAhead = ({ spacing, footRestSeconds }: FootTask, a: FootState, b: FootState): boolean =>
  a.cost + mostSavedBySpacing(spacing, footRestSeconds, a.sinceRead, b.sinceRead) <= b.cost;

const hasNoLessTime = (a: FootState, b: FootState): boolean =>
  a.since >= b.since && (a.open.key === b.open.key || owesNoMoreAtJumps(a, b));

const owesNoMoreAtJumps = (a: FootState, b: FootState): boolean =>
  [...a.open.landings].every(([at, landing]) => owesNoMore(landing, b.open.landings.get(at)!)) &&
  [...a.open.departures].every(([from, departure]) => leftNoLater(departure, b.open.departures.get(from)!));

const owesNoMore = (a: Landing, b: Landing): boolean =>
  (b.printed & ~a.printed) === 0 &&
  (b.tooSoon & ~a.tooSoon) === 0 &&
  (a.pending ?? Number.POSITIVE_INFINITY) >= (b.pending ?? Number.POSITIVE_INFINITY) &&
  a.waiting.every((move) =>
    b.waiting.some(
      (other) => other.moment === move.moment && other.pedal === move.pedal && other.seconds <= move.seconds,
    ),
  );

const leftNoLater = (a: Departure, b: Departure): boolean =>
  a.since >= b.since &&
  [...a.pending].every(([at, seconds]) => (b.pending.get(at) ?? Number.POSITIVE_INFINITY) <= seconds);
