import type { Position } from '../harp/setting.ts';
import type { PlayEdge, PlayGraph } from './play-graph.ts';

/** What one foot has to choose from, and what each choice costs. */
export interface FootTask {
  /** Positions to consider, by pedal of the foot and by moment. */
  readonly choices: readonly (readonly (readonly Position[])[])[];
  readonly graph: PlayGraph;
  readonly restSeconds: number;
  /** Price of printing a move of a pedal to a position at a moment, over and above `perMove`. */
  readonly priceAt: (pedal: number, moment: number, from: Position, to: Position) => number;
  readonly perMove: number;
  /** Price of a move for which the foot has no time. */
  readonly tooSoon: number;
  /** Price of two neighbouring pedals taken together in one direction; null where that is not allowed. */
  readonly together: number | null;
}

/** One pedal's move as printed: it holds whenever the music comes by. */
export interface PrintedMove {
  readonly pedal: number;
  readonly moment: number;
  readonly from: Position;
  readonly to: Position;
  /** `together`: with the neighbouring pedal as a last resort; `too-soon`: on some pass the foot has no time for it. */
  readonly manner: 'alone' | 'together' | 'too-soon';
}

export interface FootCourse {
  readonly initial: readonly Position[];
  readonly moves: readonly PrintedMove[];
  readonly cost: number;
}

type Stand = readonly Position[];

/** How the foot comes to a moment: where its pedals stand, and how long ago it moved. */
interface Arrival {
  readonly stand: Stand;
  readonly since: number;
}

/** What is remembered of a moment to which the music will jump back. */
interface Landing {
  readonly stand: Stand;
  /** Pedals whose move is printed here, and those of them for which there is no time, as bits. */
  readonly printed: number;
  readonly hurried: number;
  /** Seconds from here to the next printed move that has had time so far; `done` where that no longer matters. */
  readonly next: NextMove | 'pending' | 'done';
  readonly elapsed: number;
}

interface NextMove {
  readonly seconds: number;
  readonly moment: number;
  readonly pedal: number;
}

interface State {
  readonly initial: Stand;
  readonly stand: Stand;
  readonly since: number;
  readonly landings: ReadonlyMap<number, Landing>;
  readonly departures: ReadonlyMap<number, Arrival>;
  readonly cost: number;
  readonly trail: Trail | null;
}

/** What was decided, newest first; `hurried` names moves that a later jump leaves no time for. */
interface Trail {
  readonly moves: readonly PrintedMove[];
  readonly hurried: readonly { readonly moment: number; readonly pedal: number }[];
  readonly earlier: Trail | null;
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

const letTimePass = (state: State, seconds: number, rest: number): State => ({
  ...state,
  since: capped(state.since + seconds, rest),
  landings: new Map(
    [...state.landings].map(([at, landing]) => [at, { ...landing, ...age(landing, seconds, rest) }]),
  ),
});

const age = (landing: Landing, seconds: number, rest: number): Pick<Landing, 'elapsed' | 'next'> => {
  const elapsed = landing.elapsed + seconds;
  return { elapsed, next: landing.next === 'pending' && !isBefore(elapsed, rest) ? 'done' : landing.next };
};

/** Rounded so that equal times reached by different sums are one state; infinite once the foot has rested. */
const capped = (since: number, rest: number): number =>
  isBefore(since, rest) ? Math.round(since * 1e6) / 1e6 : Number.POSITIVE_INFINITY;

const isBefore = (seconds: number, rest: number): boolean => seconds < rest - 1e-6;

const arriveAt = (task: FootTask, moment: number, states: readonly State[]): State[] => {
  const { graph, restSeconds } = task;
  const edges = graph.into[moment]!;
  const step = edges.find((edge) => edge.from === moment - 1);
  const jumps = edges.filter((edge) => edge.from < moment - 1);
  const landsLater = edges.some((edge) => edge.from >= moment);
  const stands = standsAt(task, moment);
  if (moment === 0) return stands.map((stand) => landed(startState(stand), moment, landsLater, 0, 0));
  return states.flatMap((before) => {
    const aged = step === undefined ? breakOff(before) : letTimePass(before, step.seconds, restSeconds);
    const arrivals = [
      ...(step === undefined ? [] : [{ stand: aged.stand, since: aged.since }]),
      ...jumps.map((edge) => arriveByJump(before, edge, restSeconds)),
    ];
    const departures = forgetSpent(before.departures, graph, moment);
    return stands.map((stand) => {
      const { printed, hurried, moves, cost } = printMoves(task, moment, arrivals, stand);
      const since = printed === 0 ? Math.min(Number.POSITIVE_INFINITY, ...arrivals.map((a) => a.since)) : 0;
      const landings = printed === 0 ? aged.landings : noteNextMove(aged.landings, moment, printed, hurried);
      const trail = moves.length === 0 ? before.trail : { moves, hurried: [], earlier: before.trail };
      const { initial } = before;
      const state = { initial, stand, since, landings, departures, cost: before.cost + cost, trail };
      return landed(state, moment, landsLater, printed, hurried);
    });
  });
};

/** The music never goes on from the moment before: what waited for the next move there waits no longer. */
const breakOff = (state: State): State => ({
  ...state,
  landings: new Map(
    [...state.landings].map(([at, landing]) => [
      at,
      landing.next === 'pending' ? { ...landing, next: 'done' as const } : landing,
    ]),
  ),
});

const startState = (stand: Stand): State => ({
  initial: stand,
  stand,
  since: Number.POSITIVE_INFINITY,
  landings: new Map(),
  departures: new Map(),
  cost: 0,
  trail: null,
});

const arriveByJump = (state: State, edge: PlayEdge, rest: number): Arrival => {
  const departure = state.departures.get(edge.from)!;
  return { stand: departure.stand, since: capped(departure.since + edge.seconds, rest) };
};

/** All combinations of the pedals' choices. */
const standsAt = (task: FootTask, moment: number): Stand[] =>
  task.choices.reduce<Position[][]>(
    (stands, at) => stands.flatMap((stand) => at[moment]!.map((position) => [...stand, position])),
    [[]],
  );

interface Printing {
  readonly printed: number;
  readonly hurried: number;
  readonly moves: readonly PrintedMove[];
  readonly cost: number;
}

/** What must be printed so that every arrival ends in `stand`. */
const printMoves = (task: FootTask, moment: number, arrivals: readonly Arrival[], stand: Stand): Printing => {
  let printed = 0;
  let hurried = 0;
  let together = 0;
  for (const arrival of arrivals) {
    const executed = differing(arrival.stand, stand);
    const late = tooSoonOf(task, executed, arrival, stand);
    printed |= executed;
    hurried |= late.hurried;
    together |= late.together;
  }
  const moves = pedalsOf(printed).map((pedal): PrintedMove => {
    const from = arrivals.find((arrival) => arrival.stand[pedal] !== stand[pedal])!.stand[pedal]!;
    const bit = 1 << pedal;
    const manner = hurried & bit ? 'too-soon' : together & bit ? 'together' : 'alone';
    return { pedal, moment, from, to: stand[pedal]!, manner };
  });
  const cost = moves.reduce((sum, move) => sum + moveCost(task, move), 0);
  return { printed, hurried, moves, cost };
};

const moveCost = (task: FootTask, { pedal, moment, from, to, manner }: PrintedMove): number =>
  task.perMove +
  task.priceAt(pedal, moment, from, to) +
  (manner === 'too-soon' ? task.tooSoon : manner === 'together' ? task.together! : 0);

const differing = (before: Stand, after: Stand): number =>
  after.reduce(
    (bits: number, position, pedal) => (before[pedal] === position ? bits : bits | (1 << pedal)),
    0,
  );

const pedalsOf = (bits: number): number[] => [0, 1, 2, 3].filter((pedal) => bits & (1 << pedal));

/** Of the moves made on one arrival, those that the foot has no time for, and those taken together as a last resort. */
const tooSoonOf = (
  task: FootTask,
  executed: number,
  arrival: Arrival,
  stand: Stand,
): { readonly hurried: number; readonly together: number } => {
  const pedals = pedalsOf(executed);
  const [first, second] = pedals;
  if (first === undefined) return { hurried: 0, together: 0 };
  const unrested = isBefore(arrival.since, task.restSeconds) ? 1 << first : 0;
  const sameWay = (pedal: number): number => Math.sign(stand[pedal]! - arrival.stand[pedal]!);
  if (
    task.together !== null &&
    pedals.length === 2 &&
    second === first + 1 &&
    sameWay(first) === sameWay(second)
  ) {
    return { hurried: unrested, together: 1 << second };
  }
  return { hurried: unrested | (executed & ~(1 << first)), together: 0 };
};

/** A move is printed: for landings that wait for one it is the next, unless it is too soon already. */
const noteNextMove = (
  landings: ReadonlyMap<number, Landing>,
  moment: number,
  printed: number,
  hurried: number,
): ReadonlyMap<number, Landing> => {
  const pedal = pedalsOf(printed)[0]!;
  const alreadyHurried = (hurried & (1 << pedal)) !== 0;
  return new Map(
    [...landings].map(([at, landing]) => {
      if (landing.next !== 'pending') return [at, landing];
      const next = alreadyHurried ? 'done' : { seconds: landing.elapsed, moment, pedal };
      return [at, { ...landing, next }];
    }),
  );
};

const landed = (
  state: State,
  moment: number,
  landsLater: boolean,
  printed: number,
  hurried: number,
): State => {
  if (!landsLater) return state;
  const landing: Landing = { stand: state.stand, printed, hurried, next: 'pending', elapsed: 0 };
  return { ...state, landings: new Map([...state.landings, [moment, landing]]) };
};

/** Jumps leave from here: back to a landing, which may have to print more, or forward, to be remembered. */
const leave = (task: FootTask, moment: number, state: State): State => {
  let now = state;
  for (const edge of task.graph.outOf[moment]!) {
    if (edge.to <= moment) now = jumpBack(task, edge, now);
    else if (edge.to > moment + 1) {
      const departure = { stand: state.stand, since: state.since };
      now = { ...now, departures: new Map([...now.departures, [moment, departure]]) };
    }
  }
  const landings = new Map(
    [...now.landings].filter(([at]) => task.graph.into[at]!.some((edge) => edge.from > moment)),
  );
  return { ...now, landings };
};

const forgetSpent = (
  departures: ReadonlyMap<number, Arrival>,
  graph: PlayGraph,
  moment: number,
): ReadonlyMap<number, Arrival> =>
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
  const nowHurried = pedalsOf(late.hurried & landing.printed & ~landing.hurried);
  const meetsNext =
    typeof landing.next === 'object' &&
    isBefore((executed === 0 ? arrival.since : 0) + landing.next.seconds, task.restSeconds);
  const cost =
    moves.reduce((sum, move) => sum + moveCost(task, move), 0) +
    task.tooSoon * (nowHurried.length + (meetsNext ? 1 : 0));
  const hurried = [
    ...nowHurried.map((pedal) => ({ moment: edge.to, pedal })),
    ...(meetsNext && typeof landing.next === 'object' ? [landing.next] : []),
  ];
  const updated: Landing = {
    ...landing,
    printed: landing.printed | executed,
    hurried: landing.hurried | late.hurried,
    next: meetsNext ? 'done' : landing.next,
  };
  return {
    ...state,
    landings: new Map([...state.landings, [edge.to, updated]]),
    cost: state.cost + cost,
    trail: moves.length + hurried.length === 0 ? state.trail : { moves, hurried, earlier: state.trail },
  };
};

const keepCheapest = (states: readonly State[]): State[] => {
  if (states.length < 2) return [...states];
  const best = new Map<string, State>();
  for (const state of states) {
    const key = keyOf(state);
    const known = best.get(key);
    if (known === undefined || state.cost < known.cost) best.set(key, state);
  }
  return [...best.values()];
};

const keyOf = (state: State): string => {
  let key = `${state.stand.join('')};${state.since}`;
  for (const [at, landing] of state.landings) {
    const next =
      typeof landing.next === 'object' ? `${landing.next.moment}.${landing.next.pedal}` : landing.next;
    key += `;L${at}:${landing.stand.join('')},${landing.printed},${landing.hurried},${next}`;
  }
  for (const [from, departure] of state.departures) {
    key += `;D${from}:${departure.stand.join('')},${departure.since}`;
  }
  return key;
};

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
