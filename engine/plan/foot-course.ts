import type { Position } from '../harp/setting.ts';
import {
  agePending,
  capped,
  type Departure,
  keepCheapest,
  type Landing,
  letTimePass,
  mapLandings,
  type NextMove,
  type State,
  startState,
} from './foot-state.ts';
import type { PlayEdge, PlayGraph } from './play-graph.ts';
import {
  differing,
  type FootTask,
  isBefore,
  moveCost,
  type PrintedMove,
  pedalsOf,
  printMoves,
  type Stand,
  tooSoonOf,
} from './printing.ts';

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
export const findFootCourse = (task: FootTask): FootCourse => {
  let states: State[] = [];
  let sleeping: number | null = null;
  for (let moment = 0; moment < task.graph.moments; moment += 1) {
    if (isQuiet(task, moment)) {
      const seconds = task.graph.into[moment]![0]!.seconds;
      sleeping = (sleeping ?? 0) + seconds;
      continue;
    }
    if (sleeping !== null) states = states.map((state) => letTimePass(state, sleeping!, task.restSeconds));
    sleeping = null;
    states = keepCheapest(arriveAt(task, moment, states));
    states = keepCheapest(states.map((state) => leave(task, moment, state)));
  }
  return readCourse(states);
};

/** Nothing can happen here: one way in and out, no choice, and no change from the moment before. */
const isQuiet = (task: FootTask, moment: number): boolean => {
  const { into, outOf } = task.graph;
  const [arrival] = into[moment]!;
  return (
    into[moment]!.length === 1 &&
    arrival!.from === moment - 1 &&
    outOf[moment]!.every((edge) => edge.to === moment + 1) &&
    task.choices.every(
      (at) =>
        at[moment]!.length === 1 && at[moment - 1]!.length === 1 && at[moment]![0] === at[moment - 1]![0],
    )
  );
};

const arriveAt = (task: FootTask, moment: number, states: readonly State[]): State[] => {
  const { graph, restSeconds } = task;
  const edges = graph.into[moment]!;
  const step = edges.find((edge) => edge.from === moment - 1);
  const jumps = edges.filter((edge) => edge.from < moment - 1);
  const landsLater = edges.some((edge) => edge.from >= moment);
  const stands = standsAt(task, moment);
  if (moment === 0) return stands.map((stand) => landed(startState(stand), moment, landsLater, 0, 0));
  return states.flatMap((before) => {
    const aged = step === undefined ? null : letTimePass(before, step.seconds, restSeconds);
    const arrivals = [
      ...(aged === null ? [] : [arriveByStep(aged)]),
      ...jumps.map((edge) => arriveByJump(before, edge, restSeconds)),
    ];
    const departures = forgetSpent(before.departures, graph, moment);
    return stands.map((stand) => {
      const { printed, hurried, moves, cost } = printMoves(task, moment, arrivals, stand);
      const since = printed === 0 ? Math.min(Number.POSITIVE_INFINITY, ...arrivals.map((a) => a.since)) : 0;
      const landings = mapLandings(before.landings, (landing, at) =>
        printed === 0
          ? { ...landing, pending: leastPending(arrivals, at) }
          : {
              ...landing,
              pending: null,
              waiting: [...landing.waiting, ...nextMoves(arrivals, at, stand, moment, hurried)],
            },
      );
      const trail = moves.length === 0 ? before.trail : { moves, hurried: [], earlier: before.trail };
      const { initial } = before;
      const state = { initial, stand, since, landings, departures, cost: before.cost + cost, trail };
      return landed(state, moment, landsLater, printed, hurried);
    });
  });
};

const arriveByStep = (state: State): Departure => ({
  stand: state.stand,
  since: state.since,
  pending: pendingOf(state),
});

const pendingOf = (state: State): ReadonlyMap<number, number> =>
  new Map(
    [...state.landings].flatMap(([at, { pending }]): [number, number][] =>
      pending === null ? [] : [[at, pending]],
    ),
  );

const leastPending = (arrivals: readonly Departure[], landing: number): number | null => {
  const found = arrivals.map((arrival) => arrival.pending.get(landing)).filter((each) => each !== undefined);
  return found.length === 0 ? null : Math.min(...found);
};

/** The first move on each arrival that comes from a landing without a move between, unless it is too soon already. */
const nextMoves = (
  arrivals: readonly Departure[],
  landing: number,
  stand: Stand,
  moment: number,
  hurried: number,
): NextMove[] =>
  arrivals.flatMap((arrival) => {
    const seconds = arrival.pending.get(landing);
    const [pedal] = pedalsOf(differing(arrival.stand, stand));
    return seconds === undefined || pedal === undefined || hurried & (1 << pedal)
      ? []
      : [{ seconds, moment, pedal }];
  });

const arriveByJump = (state: State, edge: PlayEdge, rest: number): Departure => {
  const { stand, since, pending } = state.departures.get(edge.from)!;
  return {
    stand,
    since: capped(since + edge.seconds, rest),
    pending: new Map(
      [...pending].flatMap(([at, seconds]): [number, number][] => {
        const aged = agePending(seconds, edge.seconds, rest);
        return aged === null ? [] : [[at, aged]];
      }),
    ),
  };
};

/** All combinations of the pedals' choices. */
const standsAt = (task: FootTask, moment: number): Stand[] =>
  task.choices.reduce<Position[][]>(
    (stands, at) => stands.flatMap((stand) => at[moment]!.map((position) => [...stand, position])),
    [[]],
  );

const landed = (
  state: State,
  moment: number,
  landsLater: boolean,
  printed: number,
  hurried: number,
): State => {
  if (!landsLater) return state;
  const landing: Landing = { stand: state.stand, printed, hurried, pending: 0, waiting: [] };
  return { ...state, landings: new Map([...state.landings, [moment, landing]]) };
};

/** Jumps leave from here: back to a landing, which may have to print more, or forward, to be remembered. */
const leave = (task: FootTask, moment: number, state: State): State => {
  let now = state;
  for (const edge of task.graph.outOf[moment]!) {
    if (edge.to <= moment) now = jumpBack(task, edge, now);
    else if (edge.to > moment + 1) {
      const departure = arriveByStep(state);
      now = { ...now, departures: new Map([...now.departures, [moment, departure]]) };
    }
  }
  const landings = new Map(
    [...now.landings].filter(([at]) => task.graph.into[at]!.some((edge) => edge.from > moment)),
  );
  return { ...now, landings };
};

const forgetSpent = (
  departures: ReadonlyMap<number, Departure>,
  graph: PlayGraph,
  moment: number,
): ReadonlyMap<number, Departure> =>
  departures.size === 0
    ? departures
    : new Map([...departures].filter(([from]) => graph.outOf[from]!.some((edge) => edge.to > moment)));

const jumpBack = (task: FootTask, edge: PlayEdge, state: State): State => {
  const landing = state.landings.get(edge.to)!;
  const arrival = { stand: state.stand, since: capped(state.since + edge.seconds, task.restSeconds) };
  const executed = differing(arrival.stand, landing.stand);
  const late = tooSoonOf(task, executed, arrival, landing.stand);
  const moves = pedalsOf(executed & ~landing.printed).map(
    (pedal): PrintedMove => ({
      pedal,
      moment: edge.to,
      from: arrival.stand[pedal]!,
      to: landing.stand[pedal]!,
      manner: late.hurried & (1 << pedal) ? 'too-soon' : late.together & (1 << pedal) ? 'together' : 'alone',
    }),
  );
  const sinceHere = executed === 0 ? arrival.since : 0;
  const overtaken = landing.waiting.filter((next) => isBefore(sinceHere + next.seconds, task.restSeconds));
  const hurried = unique([
    ...pedalsOf(late.hurried & landing.printed & ~landing.hurried).map((pedal) => ({
      moment: edge.to,
      pedal,
    })),
    ...overtaken,
  ]);
  const cost = moves.reduce((sum, move) => sum + moveCost(task, move), 0) + task.tooSoon * hurried.length;
  const landings = mapLandings(state.landings, (each, at) => ({
    ...each,
    ...(at === edge.to ? { printed: each.printed | executed, hurried: each.hurried | late.hurried } : {}),
    waiting: each.waiting.filter((next) => !hurried.some((other) => isSameMove(other, next))),
  }));
  return {
    ...state,
    landings,
    departures: hastenDepartures(state.departures, edge.to, sinceHere, task.restSeconds),
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
  departures: ReadonlyMap<number, Departure>,
  landing: number,
  sinceLanding: number,
  rest: number,
): ReadonlyMap<number, Departure> =>
  new Map(
    [...departures].map(([from, departure]) => {
      const pending = departure.pending.get(landing);
      if (pending === undefined) return [from, departure];
      return [from, { ...departure, since: Math.min(departure.since, capped(sinceLanding + pending, rest)) }];
    }),
  );

const readCourse = (states: readonly State[]): FootCourse => {
  const winner = states.reduce((a, b) => (b.cost < a.cost ? b : a));
  const moves: PrintedMove[] = [];
  const hurried = new Set<string>();
  for (let trail = winner.trail; trail !== null; trail = trail.earlier) {
    moves.push(...trail.moves);
    for (const { moment, pedal } of trail.hurried) hurried.add(`${moment}.${pedal}`);
  }
  moves.sort((a, b) => a.moment - b.moment || a.pedal - b.pedal);
  return {
    initial: winner.initial,
    moves: moves.map((move) =>
      hurried.has(`${move.moment}.${move.pedal}`) ? { ...move, manner: 'too-soon' } : move,
    ),
    cost: winner.cost,
  };
};
