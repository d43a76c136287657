import type { Position } from '../../harp/setting.ts';
import { lazy } from '../../memoize.ts';
import { type FootMove, type FootTask, movesOf } from './foot-changes.ts';
import { footLowerBound, type LowerBound } from './foot-lower-bound.ts';
import {
  type FootPositions,
  footPositionsAgain,
  footPositionsByMoment,
  positionOf,
} from './foot-positions.ts';
import { advanceTime, type FootState } from './foot-state.ts';
import { advanceStates, nothingCanHappen } from './foot-steps.ts';
import {
  cheapestOf,
  type EarlierSearch,
  type Following,
  FROM_THE_START,
  type SearchTrace,
  traceSearch,
} from './search-trace.ts';
import { undominated } from './undominated-states.ts';

export interface FootSchedule {
  readonly initial: readonly Position[];
  readonly moves: readonly FootMove[];
  readonly cost: number;
  /** Whether it was proved that no course is cheaper. */
  readonly provenOptimal: boolean;
  /** For a search whose task is nearly the same; null where it ended on an earlier one's, or had to drop states. */
  readonly trace: SearchTrace | null;
}

/** How many states are followed; in the default, about a second's work for what is hard. */
export interface SearchLimits {
  /** At one moment, without a bound. */
  readonly maxStates: number;
  /** Of more than that, the number that makes a good course. */
  readonly beamWidth: number;
  /** In all, for proving a course the cheapest, before that is given up. */
  readonly maxStatesInAll: number;
}

/** It does not pay to look among fewer for those that another is never worse than. */
const FEW_STATES = 6;

const DEFAULT_SEARCH_LIMITS: SearchLimits = { maxStates: 100, beamWidth: 40, maxStatesInAll: 50_000 };

/**
 * The cheapest course of one foot through a part with repeats and jumps, exact where `provenOptimal` says so.
 *
 * A dynamic programme over the moments in printed order. Its state is where the foot's pedals stand, how long ago the
 * foot moved (on any pass, and as the player reads on), and, for every jump that is still open, the same at its other end: so that a marking holds on every
 * pass, and one that restores the setting after a jump is put where the whole is cheapest.
 *
 * A printed move costs its price once, however often it is played; it is too soon if on any pass the foot moved less
 * than `restSeconds` before, or makes another move at the same moment. Of moves at one moment the first pedal's
 * counts as the first. Time and memory are linear in the moments; the factor grows with the positions that are open
 * at once, which is small in real music. Where it is not, a search that keeps the most promising states alone first
 * finds a good course, and the exact one then leaves out every state that cannot come to less.
 */
export const findFootSchedule = (
  asked: FootTask,
  limits: SearchLimits = DEFAULT_SEARCH_LIMITS,
  earlier: EarlierSearch | null = null,
): FootSchedule => {
  const task = { ...asked, priceAt: memoizePrices(asked.priceAt) };
  const pedals = task.choices.length;
  const choices =
    earlier === null
      ? footPositionsByMoment(task.choices, task.graph.moments)
      : footPositionsAgain(task.choices, earlier.trace.choices, earlier.first, earlier.last);
  const bound = lazy(() => footLowerBound(task, choices));
  const { keep, dropped } = beamSearch(task, limits, bound);
  const known = traceSearch(choices, (follow) => search(task, choices, keep, follow), earlier);
  if (!dropped()) return { ...readSchedule(known.winner, pedals, true), trace: known.trace };
  const best = searchBelowBound(task, choices, bound(), known.winner.cost, limits.maxStatesInAll);
  return { ...readSchedule(best ?? known.winner, pedals, best !== null), trace: null };
};

/** How far from the least that is possible it is looked at first, in moves. */
const SLACKS = [0.0002, 0.002, 1, 10] as const;

/**
 * The cheapest state at the end, looked for near what is possible at best before it is looked for far from it; null
 * where that would be too much work.
 */
const searchBelowBound = (
  task: FootTask,
  choices: readonly (readonly FootPositions[])[],
  bound: LowerBound,
  known: number,
  most: number,
): FootState | null => {
  const first = advanceStates(task, 0, choices[0]!, []);
  const least = first.reduce(
    (sum, state) => Math.min(sum, state.cost + bound(0, state)),
    Number.POSITIVE_INFINITY,
  );
  const costs = SLACKS.map((slack) => least + slack * task.perMove);
  for (const cost of [...costs.filter((cost) => cost < known), known]) {
    const { keep, overdone } = pruneByBound(task, cost, bound, most);
    const found = search(task, choices, keep);
    if (overdone()) return null;
    if (found.length > 0) return cheapestOf(found);
  }
  return null;
};

/** Which of the states at a moment are worth following. */
type StateFilter = (moment: number, states: readonly FootState[]) => readonly FootState[];

const search = (
  task: FootTask,
  choices: readonly (readonly FootPositions[])[],
  keep: StateFilter,
  { from, isOver }: Following = FROM_THE_START,
): readonly FootState[] => {
  const { graph, footRestSeconds: restSeconds, spacing } = task;
  let { states } = from;
  let sleeping: number | null = null;
  for (let moment = from.moment + 1; moment < graph.moments; moment += 1) {
    if (nothingCanHappen(graph, choices, moment)) {
      sleeping = (sleeping ?? 0) + graph.into[moment]![0]!.seconds;
      continue;
    }
    if (sleeping !== null) {
      const slept = sleeping;
      states = states.map((state) => advanceTime(state, slept, restSeconds, spacing.comfortableSeconds));
    }
    sleeping = null;
    states = keep(moment, advanceStates(task, moment, choices[moment]!, states));
    if (isOver(moment, states)) break;
  }
  return states;
};

/** Keeps the most promising states where there are many; tells whether it had to drop any. */
const beamSearch = (
  task: FootTask,
  { maxStates, beamWidth }: SearchLimits,
  bound: () => LowerBound,
): { readonly keep: StateFilter; readonly dropped: () => boolean } => {
  let dropped = false;
  const keep: StateFilter = (moment, all) => {
    const states = all.length <= Math.min(FEW_STATES, maxStates) ? all : undominated(task, all);
    if (states.length <= maxStates) return states;
    dropped = true;
    const hopes = states.map((state) => state.cost + bound()(moment, state));
    const last = Float64Array.from(hopes).sort()[beamWidth - 1]!;
    return states.filter((_, place) => hopes[place]! <= last);
  };
  return { keep, dropped: () => dropped };
};

/**
 * Keeps the states that may come to a known cost or less, and none any more once there were too many in all; sums of
 * prices are a little apart by the order of adding.
 */
const pruneByBound = (
  task: FootTask,
  known: number,
  bound: LowerBound,
  most: number,
): { readonly keep: StateFilter; readonly overdone: () => boolean } => {
  let total = 0;
  const keep: StateFilter = (moment, states) => {
    total += states.length;
    if (total > most) return [];
    return undominated(
      task,
      states.filter((state) => state.cost + bound(moment, state) <= known + 1e-3),
    );
  };
  return { keep, overdone: () => total > most };
};

/** Prices are asked for again and again at one moment, and hardly at another again. */
const memoizePrices = (priceAt: FootTask['priceAt']): FootTask['priceAt'] => {
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

const readSchedule = (
  winner: FootState,
  pedals: number,
  provenOptimal: boolean,
): Omit<FootSchedule, 'trace'> => {
  const moves: FootMove[] = [];
  const tooSoonMoves = new Set<string>();
  for (let trail = winner.history; trail !== null; trail = trail.earlier) {
    moves.push(...movesOf(trail.changes, trail.moment, trail.arrivals, trail.positions));
    for (const { moment, pedal } of trail.tooSoon) tooSoonMoves.add(`${moment}.${pedal}`);
  }
  moves.sort((a, b) => a.moment - b.moment || a.pedal - b.pedal);
  return {
    initial: Array.from({ length: pedals }, (_, pedal) => positionOf(winner.initial, pedal)),
    moves: moves.map((move) =>
      tooSoonMoves.has(`${move.moment}.${move.pedal}`) ? { ...move, manner: 'too-soon' } : move,
    ),
    cost: winner.cost,
    provenOptimal,
  };
};
