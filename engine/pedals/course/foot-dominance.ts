import { group } from 'd3-array';
import type { Departure, Landing, State } from './foot-state.ts';

/**
 * The states that may still become the cheapest: without those that another matches in cost, in where the pedals
 * stand here and at the open jumps, and in time. What a foot that has had more time pays later, one that has had less
 * pays too.
 */
export const undominated = (states: readonly State[]): readonly State[] => {
  const best = new Set([...group(states, standsOf).values()].flatMap(bestOf));
  return states.filter((state) => best.has(state));
};

const standsOf = ({ stand, open }: State): string => {
  let key = `${stand}`;
  for (const [at, landing] of open.landings) key += `;L${at}:${landing.stand}`;
  for (const [from, departure] of open.departures) key += `;D${from}:${departure.stand}`;
  return key;
};

const bestOf = (states: readonly State[]): State[] => {
  const best: State[] = [];
  for (const state of [...states].sort((a, b) => a.cost - b.cost)) {
    if (!best.some((other) => hasNoLessTime(other, state))) best.push(state);
  }
  return best;
};

const hasNoLessTime = (a: State, b: State): boolean =>
  a.since >= b.since &&
  [...a.open.landings].every(([at, landing]) => owesNoMore(landing, b.open.landings.get(at)!)) &&
  [...a.open.departures].every(([from, departure]) => leftNoLater(departure, b.open.departures.get(from)!));

const owesNoMore = (a: Landing, b: Landing): boolean =>
  (b.printed & ~a.printed) === 0 &&
  (b.hurried & ~a.hurried) === 0 &&
  (a.pending ?? Number.POSITIVE_INFINITY) >= (b.pending ?? Number.POSITIVE_INFINITY) &&
  a.waiting.every((move) =>
    b.waiting.some(
      (other) => other.moment === move.moment && other.pedal === move.pedal && other.seconds <= move.seconds,
    ),
  );

const leftNoLater = (a: Departure, b: Departure): boolean =>
  a.since >= b.since &&
  [...a.pending].every(([at, seconds]) => (b.pending.get(at) ?? Number.POSITIVE_INFINITY) <= seconds);
