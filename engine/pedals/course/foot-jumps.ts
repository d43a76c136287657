import type { PlayEdge } from '../../time/play-graph.ts';
import { hasRested } from '../../time/rested.ts';
import type { State } from './foot-state.ts';
import {
  capped,
  changeJumps,
  type Departures,
  type Landings,
  mapLandings,
  type NextMove,
  pendingOf,
} from './foot-state.ts';
import { costOfMoves, type FootTask, movesOf, printOn } from './printing.ts';
import { pedalsOf } from './stand.ts';

/** Jumps leave from here: back to a landing, which may have to print more, or forward, to be remembered. */
export const leaveBy = (task: FootTask, moment: number, state: State): State => {
  const { stand, since } = state;
  let now = state;
  for (const edge of task.graph.outOf[moment]!) {
    if (edge.to <= moment) now = jumpBack(task, edge, now);
    else if (edge.to > moment + 1) {
      const departure = { stand, since, pending: pendingOf(state.open.landings) };
      const departures = new Map([...now.open.departures, [moment, departure] as const]);
      now = { ...now, open: changeJumps(now.open, now.open.landings, departures) };
    }
  }
  return { ...now, open: changeJumps(now.open, stillOpen(task, moment, now), now.open.departures) };
};

const stillOpen = ({ graph }: FootTask, moment: number, { open }: State): Landings =>
  new Map([...open.landings].filter(([at]) => graph.into[at]!.some((edge) => edge.from > moment)));

const jumpBack = (task: FootTask, edge: PlayEdge, state: State): State => {
  const landing = state.open.landings.get(edge.to)!;
  const arrival = { stand: state.stand, since: capped(state.since + edge.seconds, task.restSeconds) };
  const all = printOn(task, arrival, landing.stand);
  const added = { ...all, printed: all.printed & ~landing.printed };
  const sinceHere = all.printed === 0 ? arrival.since : 0;
  const overtaken = landing.waiting.filter((next) => !hasRested(sinceHere + next.seconds, task.restSeconds));
  const hurriedHere = pedalsOf(all.hurried & landing.printed & ~landing.hurried);
  const hurried = unique([...hurriedHere.map((pedal) => ({ moment: edge.to, pedal })), ...overtaken]);
  const cost =
    costOfMoves(task, added, edge.to, [arrival], landing.stand) +
    task.restoring * pedalsOf(added.printed).length +
    task.tooSoon * hurried.length;
  const moves = movesOf(added, edge.to, [arrival], landing.stand);
  const landings = mapLandings(state.open.landings, (each, at) => ({
    ...each,
    ...(at === edge.to ? { printed: each.printed | all.printed, hurried: each.hurried | all.hurried } : {}),
    waiting: each.waiting.filter((next) => !hurried.some((other) => isSameMove(other, next))),
  }));
  const departures = hastenDepartures(state.open.departures, edge.to, sinceHere, task.restSeconds);
  return {
    ...state,
    open: changeJumps(state.open, landings, departures),
    cost: state.cost + cost,
    trail: moves.length + hurried.length === 0 ? state.trail : { moves, hurried, earlier: state.trail },
  };
};

type MoveName = Pick<NextMove, 'moment' | 'pedal'>;

const isSameMove = (a: MoveName, b: MoveName): boolean => a.moment === b.moment && a.pedal === b.pedal;

const unique = (moves: readonly MoveName[]): MoveName[] =>
  moves.filter((move, i) => moves.findIndex((other) => isSameMove(move, other)) === i);

/** A move at a landing, or shortly before it, is also recent for the jumps that leave soon after the landing. */
const hastenDepartures = (
  departures: Departures,
  landing: number,
  sinceLanding: number,
  rest: number,
): Departures =>
  new Map(
    [...departures].map(([from, departure]) => {
      const pending = departure.pending.get(landing);
      if (pending === undefined) return [from, departure];
      return [from, { ...departure, since: Math.min(departure.since, capped(sinceLanding + pending, rest)) }];
    }),
  );
