import type { PlayEdge, PlayGraph } from '../../time/play-graph.ts';
import { leaveBy } from './foot-jumps.ts';
import {
  ageLandings,
  agePendings,
  capped,
  changeJumps,
  type Departure,
  type Departures,
  type Landings,
  leastPending,
  mapLandings,
  moveAfter,
  nextMoves,
  type OpenJumps,
  pendingOf,
  Shortlist,
  type State,
  startState,
  waitOn,
} from './foot-state.ts';
import {
  costOfMoves,
  costOfStart,
  type FootTask,
  movesOf,
  NOTHING_PRINTED,
  type Printing,
  printFor,
} from './printing.ts';
import type { Stand } from './stand.ts';

/** Nothing can happen here: one way in and out, no choice, and no change from the moment before. */
export const isQuiet = (graph: PlayGraph, stands: readonly (readonly Stand[])[], moment: number): boolean =>
  stands[moment]!.length === 1 &&
  stands[moment] === stands[moment - 1] &&
  graph.into[moment]!.length === 1 &&
  graph.into[moment]![0]!.from === moment - 1 &&
  !jumpsAway(graph, moment);

const jumpsAway = (graph: PlayGraph, moment: number): boolean =>
  graph.outOf[moment]!.some((edge) => edge.to !== moment + 1);

/** The states after a moment from those before it: what is printed there, and what is remembered for jumps. */
export const passMoment = (
  task: FootTask,
  moment: number,
  stands: readonly Stand[],
  before: readonly State[],
): readonly State[] => {
  const arrived = arriveAt(task, moment, stands, before);
  return jumpsAway(task.graph, moment) ? leave(task, moment, arrived) : arrived;
};

const arriveAt = (
  task: FootTask,
  moment: number,
  stands: readonly Stand[],
  states: readonly State[],
): readonly State[] => {
  const { graph } = task;
  const edges = graph.into[moment]!;
  const step = edges.find((edge) => edge.from === moment - 1);
  const jumps = edges.filter((edge) => edge.from < moment - 1);
  const landsLater = edges.some((edge) => edge.from >= moment);
  const landAt = (open: OpenJumps, stand: Stand, printing: Printing): OpenJumps =>
    landsLater ? openLanding(open, moment, stand, printing) : open;
  if (moment === 0) {
    return stands.map((stand) => {
      const state = startState(stand, costOfStart(task, stand));
      return { ...state, open: landAt(state.open, stand, NOTHING_PRINTED) };
    });
  }
  const list = new Shortlist();
  for (const before of states) {
    const arrivals = arrivalsOf(task, before, step, jumps);
    const departures = jumps.length === 0 ? before.open.departures : unspent(before, graph, moment);
    for (const stand of stands) {
      const printing = printFor(task, arrivals, stand);
      const still = printing.printed === 0;
      const landings = passLandings(before.open.landings, arrivals, stand, moment, printing);
      const open = landAt(changeJumps(before.open, landings, departures), stand, printing);
      const kind = { stand, since: still ? leastSince(arrivals) : 0, open };
      const cost = before.cost + costOfMoves(task, printing, moment, arrivals, stand);
      if (!list.wants(kind, cost)) continue;
      const moves = still ? [] : movesOf(printing, moment, arrivals, stand);
      const trail = still ? before.trail : { moves, hurried: [], earlier: before.trail };
      list.offer({ ...kind, initial: before.initial, cost, trail });
    }
  }
  return list.states;
};

const arrivalsOf = (
  { restSeconds }: FootTask,
  before: State,
  step: PlayEdge | undefined,
  jumps: readonly PlayEdge[],
): readonly Departure[] => {
  const arrivals: Departure[] = [];
  if (step !== undefined) {
    const { stand, since, open } = before;
    arrivals.push({
      stand,
      since: capped(since + step.seconds, restSeconds),
      pending: pendingOf(ageLandings(open.landings, step.seconds, restSeconds)),
    });
  }
  for (const { from, seconds } of jumps) {
    const { stand, since, pending } = before.open.departures.get(from)!;
    arrivals.push({
      stand,
      since: capped(since + seconds, restSeconds),
      pending: agePendings(pending, seconds, restSeconds),
    });
  }
  return arrivals;
};

const leastSince = (arrivals: readonly Departure[]): number => {
  let least = Number.POSITIVE_INFINITY;
  for (const { since } of arrivals) least = Math.min(least, since);
  return least;
};

/** What the open landings remember once the moment is passed. */
const passLandings = (
  landings: Landings,
  arrivals: readonly Departure[],
  stand: Stand,
  moment: number,
  { printed, hurried }: Printing,
): Landings =>
  mapLandings(landings, (landing, at) =>
    printed === 0
      ? waitOn(landing, leastPending(arrivals, at))
      : moveAfter(landing, nextMoves(arrivals, at, stand, moment, hurried)),
  );

const openLanding = (open: OpenJumps, moment: number, stand: Stand, printing: Printing): OpenJumps => {
  const { printed, hurried } = printing;
  const landing = { stand, printed, hurried, pending: 0, waiting: [] };
  return changeJumps(open, new Map([...open.landings, [moment, landing]]), open.departures);
};

/** Departures from which the music still jumps to somewhere past this moment. */
const unspent = ({ open }: State, graph: PlayGraph, moment: number): Departures =>
  open.departures.size === 0
    ? open.departures
    : new Map([...open.departures].filter(([from]) => graph.outOf[from]!.some((edge) => edge.to > moment)));

const leave = (task: FootTask, moment: number, states: readonly State[]): readonly State[] => {
  const list = new Shortlist();
  for (const state of states) list.offer(leaveBy(task, moment, state));
  return list.states;
};
