import type { PlayEdge } from '../../time/play-graph.ts';
import { hasRested } from '../../time/rested.ts';
import { changesForArrival, costOfMoves, type FootTask } from './foot-changes.ts';
import { pedalIndices } from './foot-positions.ts';
import type { FootState } from './foot-state.ts';
import {
  changeJumps,
  type Departures,
  type Landings,
  mapLandings,
  type NextMove,
  pendingOf,
  roundedUntilRested,
} from './foot-state.ts';

/** Jumps leave from here: back to a landing, which may have to print more, or forward, to be remembered. */
export const leaveByJumps = (task: FootTask, moment: number, state: FootState): FootState => {
  const { positions, since } = state;
  let now = state;
  for (const edge of task.graph.outOf[moment]!) {
    if (edge.to <= moment) now = jumpBack(task, edge, now);
    else if (edge.to > moment + 1) {
      const departure = { positions, since, pending: pendingOf(state.open.landings) };
      const departures = new Map([...now.open.departures, [moment, departure] as const]);
      now = { ...now, open: changeJumps(now.open, now.open.landings, departures) };
    }
  }
  return { ...now, open: changeJumps(now.open, stillOpen(task, moment, now), now.open.departures) };
};

const stillOpen = ({ graph }: FootTask, moment: number, { open }: FootState): Landings =>
  new Map([...open.landings].filter(([at]) => graph.into[at]!.some((edge) => edge.from > moment)));

const jumpBack = (task: FootTask, edge: PlayEdge, state: FootState): FootState => {
  const landing = state.open.landings.get(edge.to)!;
  const arrival = {
    positions: state.positions,
    since: roundedUntilRested(state.since + edge.seconds, task.footRestSeconds),
  };
  const all = changesForArrival(task, arrival, landing.positions);
  const added = { ...all, printed: all.printed & ~landing.printed };
  const sinceHere = all.printed === 0 ? arrival.since : 0;
  const overtaken = landing.waiting.filter(
    (next) => !hasRested(sinceHere + next.seconds, task.footRestSeconds),
  );
  const tooSoonHere = pedalIndices(all.tooSoon & landing.printed & ~landing.tooSoon);
  const tooSoon = unique([...tooSoonHere.map((pedal) => ({ moment: edge.to, pedal })), ...overtaken]);
  const cost =
    costOfMoves(task, added, edge.to, [arrival], landing.positions) +
    task.restoring * pedalIndices(added.printed).length +
    task.tooSoon * tooSoon.length;
  const landings = mapLandings(state.open.landings, (each, at) => ({
    ...each,
    ...(at === edge.to ? { printed: each.printed | all.printed, tooSoon: each.tooSoon | all.tooSoon } : {}),
    waiting: each.waiting.filter((next) => !tooSoon.some((other) => isSameMove(other, next))),
  }));
  const departures = shortenDepartureRest(state.open.departures, edge.to, sinceHere, task.footRestSeconds);
  return {
    ...state,
    open: changeJumps(state.open, landings, departures),
    cost: state.cost + cost,
    history:
      added.printed === 0 && tooSoon.length === 0
        ? state.history
        : {
            changes: added,
            moment: edge.to,
            arrivals: [arrival],
            positions: landing.positions,
            tooSoon,
            earlier: state.history,
          },
  };
};

type MoveName = Pick<NextMove, 'moment' | 'pedal'>;

const isSameMove = (a: MoveName, b: MoveName): boolean => a.moment === b.moment && a.pedal === b.pedal;

const unique = (moves: readonly MoveName[]): MoveName[] =>
  moves.filter((move, i) => moves.findIndex((other) => isSameMove(move, other)) === i);

/** A move at a landing, or shortly before it, is also recent for the jumps that leave soon after the landing. */
const shortenDepartureRest = (
  departures: Departures,
  landing: number,
  sinceLanding: number,
  rest: number,
): Departures =>
  new Map(
    [...departures].map(([from, departure]) => {
      const pending = departure.pending.get(landing);
      if (pending === undefined) return [from, departure];
      return [
        from,
        { ...departure, since: Math.min(departure.since, roundedUntilRested(sinceLanding + pending, rest)) },
      ];
    }),
  );
