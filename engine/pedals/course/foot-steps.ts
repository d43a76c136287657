import type { PlayEdge, PlayGraph } from '../../time/play-graph.ts';
import {
  type ChangesAtMoment,
  changesForArrivals,
  costOfMoves,
  costOfStart,
  type FootTask,
  NO_CHANGES,
} from './foot-changes.ts';
import { leaveByJumps } from './foot-jumps.ts';
import type { FootPositions } from './foot-positions.ts';
import { readOn } from './foot-read-on.ts';
import {
  ageLandings,
  agePendings,
  BestStates,
  changeJumps,
  type Departure,
  type Departures,
  type FootState,
  keepPending,
  type Landings,
  leastPending,
  mapLandings,
  NONE_TOO_SOON,
  type OpenJumps,
  pendingOf,
  recordMoves,
  roundedUntilRested,
  startState,
} from './foot-state.ts';
import { priceOfSpacing } from './spacing.ts';

/** Nothing can happen here: one way in and out, no choice, and no change from the moment before. */
export const nothingCanHappen = (
  graph: PlayGraph,
  choices: readonly (readonly FootPositions[])[],
  moment: number,
): boolean =>
  choices[moment]!.length === 1 &&
  choices[moment] === choices[moment - 1] &&
  graph.into[moment]!.length === 1 &&
  graph.into[moment]![0]!.from === moment - 1 &&
  !jumpsAway(graph, moment);

const jumpsAway = (graph: PlayGraph, moment: number): boolean =>
  graph.outOf[moment]!.some((edge) => edge.to !== moment + 1);

/** The states after a moment from those before it: what is printed there, and what is remembered for jumps. */
export const advanceStates = (
  task: FootTask,
  moment: number,
  choices: readonly FootPositions[],
  before: readonly FootState[],
): readonly FootState[] => {
  const arrived = arriveAt(task, moment, choices, before);
  return jumpsAway(task.graph, moment) ? leave(task, moment, arrived) : arrived;
};

const arriveAt = (
  task: FootTask,
  moment: number,
  choices: readonly FootPositions[],
  states: readonly FootState[],
): readonly FootState[] => {
  const { graph } = task;
  const edges = graph.into[moment]!;
  const step = edges.find((edge) => edge.from === moment - 1);
  if (step !== undefined && edges.length === 1) return readOn(task, moment, choices, states, step);
  const jumps = edges.filter((edge) => edge.from < moment - 1);
  const landsLater = edges.some((edge) => edge.from >= moment);
  const landAt = (open: OpenJumps, positions: FootPositions, changes: ChangesAtMoment): OpenJumps =>
    landsLater ? openLanding(open, moment, positions, changes) : open;
  if (moment === 0) {
    return choices.map((positions) => {
      const state = startState(positions, costOfStart(task, positions));
      return { ...state, open: landAt(state.open, positions, NO_CHANGES) };
    });
  }
  const list = new BestStates();
  for (const before of states) {
    const arrivals = arrivalsOf(task, before, step, jumps);
    const departures = jumps.length === 0 ? before.open.departures : unspent(before, graph, moment);
    const sinceRead = timeRead(task, before, step);
    const priceOfMovingOn = priceOfSpacing(task.spacing, task.footRestSeconds, sinceRead);
    for (const positions of choices) {
      const changes = changesForArrivals(task, arrivals, positions);
      const still = changes.printed === 0;
      const landings = passLandings(before.open.landings, arrivals, positions, moment, changes);
      const open = landAt(changeJumps(before.open, landings, departures), positions, changes);
      const movesOn = step !== undefined && positions !== before.positions;
      const key = {
        positions,
        since: still ? leastSince(arrivals) : 0,
        sinceRead: movesOn ? 0 : sinceRead,
        open,
      };
      const cost =
        before.cost +
        costOfMoves(task, changes, moment, arrivals, positions) +
        (movesOn ? priceOfMovingOn : 0);
      if (!list.wants(key, cost)) continue;
      const earlier = before.history;
      const history = still
        ? earlier
        : { changes, moment, arrivals, positions, tooSoon: NONE_TOO_SOON, earlier };
      list.offer({ ...key, initial: before.initial, cost, history });
    }
  }
  return list.states;
};

const arrivalsOf = (
  { footRestSeconds: restSeconds }: FootTask,
  before: FootState,
  step: PlayEdge | undefined,
  jumps: readonly PlayEdge[],
): readonly Departure[] => {
  const arrivals: Departure[] = [];
  if (step !== undefined) {
    const { positions, since, open } = before;
    arrivals.push({
      positions,
      since: roundedUntilRested(since + step.seconds, restSeconds),
      pending: pendingOf(ageLandings(open.landings, step.seconds, restSeconds)),
    });
  }
  for (const { from, seconds } of jumps) {
    const { positions, since, pending } = before.open.departures.get(from)!;
    arrivals.push({
      positions,
      since: roundedUntilRested(since + seconds, restSeconds),
      pending: agePendings(pending, seconds, restSeconds),
    });
  }
  return arrivals;
};

/** The time since the last move as the player reads on to a moment; where no step leads on, the foot has rested. */
const timeRead = ({ spacing }: FootTask, { sinceRead }: FootState, step: PlayEdge | undefined): number =>
  step === undefined
    ? Number.POSITIVE_INFINITY
    : roundedUntilRested(sinceRead + step.seconds, spacing.comfortableSeconds);

const leastSince = (arrivals: readonly Departure[]): number => {
  let least = Number.POSITIVE_INFINITY;
  for (const { since } of arrivals) least = Math.min(least, since);
  return least;
};

/** What the open landings remember once the moment is passed. */
const passLandings = (
  landings: Landings,
  arrivals: readonly Departure[],
  positions: FootPositions,
  moment: number,
  { printed, tooSoon }: ChangesAtMoment,
): Landings =>
  printed === 0
    ? mapLandings(landings, (landing, at) => keepPending(landing, leastPending(arrivals, at)))
    : recordMoves(landings, arrivals, positions, moment, tooSoon);

const openLanding = (
  open: OpenJumps,
  moment: number,
  positions: FootPositions,
  changes: ChangesAtMoment,
): OpenJumps => {
  const { printed, tooSoon } = changes;
  const landing = { positions, printed, tooSoon, pending: 0, waiting: [] };
  return changeJumps(open, new Map([...open.landings, [moment, landing]]), open.departures);
};

/** Departures from which the music still jumps to somewhere past this moment. */
const unspent = ({ open }: FootState, graph: PlayGraph, moment: number): Departures =>
  open.departures.size === 0
    ? open.departures
    : new Map([...open.departures].filter(([from]) => graph.outOf[from]!.some((edge) => edge.to > moment)));

const leave = (task: FootTask, moment: number, states: readonly FootState[]): readonly FootState[] => {
  const list = new BestStates();
  for (const state of states) list.offer(leaveByJumps(task, moment, state));
  return list.states;
};
