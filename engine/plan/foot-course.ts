import type { Position } from '../harp/setting.ts';
import { leaveBy } from './foot-jumps.ts';
import { letTimePass, Shortlist, type State, startState } from './foot-state.ts';
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
  waitOn,
} from './open-jumps.ts';
import type { PlayEdge, PlayGraph } from './play-graph.ts';
import {
  costOfMoves,
  type FootTask,
  movesOf,
  NOTHING_PRINTED,
  type PrintedMove,
  type Printing,
  printFor,
} from './printing.ts';
import { positionIn, type Stand, standsByMoment } from './stand.ts';

export interface FootCourse {
  readonly initial: readonly Position[];
  readonly moves: readonly PrintedMove[];
  readonly cost: number;
}

/**
 * The cheapest course of one foot through a part with repeats and jumps, exact.
 *
 * A dynamic programme over the moments in printed order. Its state is where the foot's pedals stand, how long ago the
 * foot moved, and, for every jump that is still open, the same at its other end: so that a marking holds on every
 * pass, and one that restores the setting after a jump is put where the whole is cheapest.
 *
 * A printed move costs its price once, however often it is played; it is too soon if on any pass the foot moved less
 * than `restSeconds` before, or makes another move at the same moment. Of moves at one moment the first pedal's
 * counts as the first. Time and memory are linear in the moments; the factor grows with the positions that are open
 * at once, which is small in real music.
 */
export const findFootCourse = (asked: FootTask): FootCourse => {
  const task = { ...asked, priceAt: rememberPrices(asked.priceAt) };
  const { graph, restSeconds } = task;
  const stands = standsByMoment(task.choices, graph.moments);
  let states: readonly State[] = [];
  let sleeping: number | null = null;
  for (let moment = 0; moment < graph.moments; moment += 1) {
    if (isQuiet(graph, stands, moment)) {
      sleeping = (sleeping ?? 0) + graph.into[moment]![0]!.seconds;
      continue;
    }
    if (sleeping !== null) states = states.map((state) => letTimePass(state, sleeping!, restSeconds));
    sleeping = null;
    states = arriveAt(task, moment, stands[moment]!, states);
    if (jumpsAway(graph, moment)) states = leave(task, moment, states);
  }
  return readCourse(states, task.choices.length);
};

/** Prices are asked for again and again at one moment, and hardly at another again. */
const rememberPrices = (priceAt: FootTask['priceAt']): FootTask['priceAt'] => {
  const known = new Float64Array(4 ** 3).fill(Number.NaN);
  let at = -1;
  return (pedal, moment, from, to) => {
    if (moment !== at) known.fill(Number.NaN);
    at = moment;
    const place = 16 * pedal + 4 * (from + 1) + to + 1;
    if (Number.isNaN(known[place]!)) known[place] = priceAt(pedal, moment, from, to);
    return known[place]!;
  };
};

/** Nothing can happen here: one way in and out, no choice, and no change from the moment before. */
const isQuiet = (graph: PlayGraph, stands: readonly (readonly Stand[])[], moment: number): boolean =>
  stands[moment]!.length === 1 &&
  stands[moment] === stands[moment - 1] &&
  graph.into[moment]!.length === 1 &&
  graph.into[moment]![0]!.from === moment - 1 &&
  !jumpsAway(graph, moment);

const jumpsAway = (graph: PlayGraph, moment: number): boolean =>
  graph.outOf[moment]!.some((edge) => edge.to !== moment + 1);

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
    return stands.map(startState).map((state) => ({
      ...state,
      open: landAt(state.open, state.stand, NOTHING_PRINTED),
    }));
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

const readCourse = (states: readonly State[], pedals: number): FootCourse => {
  const winner = states.reduce((a, b) => (b.cost < a.cost ? b : a));
  const moves: PrintedMove[] = [];
  const hurried = new Set<string>();
  for (let trail = winner.trail; trail !== null; trail = trail.earlier) {
    moves.push(...trail.moves);
    for (const { moment, pedal } of trail.hurried) hurried.add(`${moment}.${pedal}`);
  }
  moves.sort((a, b) => a.moment - b.moment || a.pedal - b.pedal);
  return {
    initial: Array.from({ length: pedals }, (_, pedal) => positionIn(winner.initial, pedal)),
    moves: moves.map((move) =>
      hurried.has(`${move.moment}.${move.pedal}`) ? { ...move, manner: 'too-soon' } : move,
    ),
    cost: winner.cost,
  };
};
