import type { Position } from '../../harp/setting.ts';
import { lazy } from '../../memoize.ts';
import { boundFootCourse, type LeastToGo } from './foot-bound.ts';
import { undominated } from './foot-dominance.ts';
import { letTimePass, type State } from './foot-state.ts';
import { isQuiet, passMoment } from './foot-steps.ts';
import type { FootTask, PrintedMove } from './printing.ts';
import { positionIn, type Stand, standsByMoment } from './stand.ts';

export interface FootCourse {
  readonly initial: readonly Position[];
  readonly moves: readonly PrintedMove[];
  readonly cost: number;
  /** Whether it was proved that no course is cheaper. */
  readonly proved: boolean;
}

/** How many states are followed; in the default, about a second's work for what is hard. */
export interface Patience {
  /** At one moment, without a bound. */
  readonly many: number;
  /** Of more than that, the number that makes a good course. */
  readonly promising: number;
  /** In all, for proving a course the cheapest, before that is given up. */
  readonly inAll: number;
}

const PATIENCE: Patience = { many: 100, promising: 40, inAll: 50_000 };

/**
 * The cheapest course of one foot through a part with repeats and jumps, exact where `proved` says so.
 *
 * A dynamic programme over the moments in printed order. Its state is where the foot's pedals stand, how long ago the
 * foot moved, and, for every jump that is still open, the same at its other end: so that a marking holds on every
 * pass, and one that restores the setting after a jump is put where the whole is cheapest.
 *
 * A printed move costs its price once, however often it is played; it is too soon if on any pass the foot moved less
 * than `restSeconds` before, or makes another move at the same moment. Of moves at one moment the first pedal's
 * counts as the first. Time and memory are linear in the moments; the factor grows with the positions that are open
 * at once, which is small in real music. Where it is not, a search that keeps the most promising states alone first
 * finds a good course, and the exact one then leaves out every state that cannot come to less.
 */
export const findFootCourse = (asked: FootTask, patience: Patience = PATIENCE): FootCourse => {
  const task = { ...asked, priceAt: rememberPrices(asked.priceAt) };
  const stands = standsByMoment(task.choices, task.graph.moments);
  const bound = lazy(() => boundFootCourse(task, stands));
  const { keep, dropped } = narrowly(patience, bound);
  const found = cheapestOf(search(task, stands, keep));
  if (!dropped()) return readCourse(found, task.choices.length, true);
  const best = searchWithin(task, stands, bound(), found.cost, patience.inAll);
  return readCourse(best ?? found, task.choices.length, best !== null);
};

/**
 * The cheapest state at the end, looked for near what is possible at best before it is looked for far from it; null
 * where that would be too much work.
 */
const searchWithin = (
  task: FootTask,
  stands: readonly (readonly Stand[])[],
  bound: LeastToGo,
  known: number,
  most: number,
): State | null => {
  const first = passMoment(task, 0, stands[0]!, []);
  const least = first.reduce(
    (sum, state) => Math.min(sum, state.cost + bound(0, state)),
    Number.POSITIVE_INFINITY,
  );
  const costs = [task.perMove / 10, task.perMove, 10 * task.perMove].map((slack) => least + slack);
  for (const cost of [...costs.filter((cost) => cost < known), known]) {
    const { keep, overdone } = within(cost, bound, most);
    const found = search(task, stands, keep);
    if (overdone()) return null;
    if (found.length > 0) return cheapestOf(found);
  }
  return null;
};

/** Which of the states at a moment are worth following. */
type Keep = (moment: number, states: readonly State[]) => readonly State[];

const search = (task: FootTask, stands: readonly (readonly Stand[])[], keep: Keep): readonly State[] => {
  const { graph, restSeconds } = task;
  let states: readonly State[] = [];
  let sleeping: number | null = null;
  for (let moment = 0; moment < graph.moments; moment += 1) {
    if (isQuiet(graph, stands, moment)) {
      sleeping = (sleeping ?? 0) + graph.into[moment]![0]!.seconds;
      continue;
    }
    if (sleeping !== null) states = states.map((state) => letTimePass(state, sleeping!, restSeconds));
    sleeping = null;
    states = keep(moment, passMoment(task, moment, stands[moment]!, states));
  }
  return states;
};

/** Keeps the most promising states where there are many; tells whether it had to drop any. */
const narrowly = (
  { many, promising }: Patience,
  bound: () => LeastToGo,
): { readonly keep: Keep; readonly dropped: () => boolean } => {
  let dropped = false;
  const keep: Keep = (moment, all) => {
    const states = all.length <= many ? all : undominated(all);
    if (states.length <= many) return states;
    dropped = true;
    const hopes = states.map((state) => state.cost + bound()(moment, state));
    const last = Float64Array.from(hopes).sort()[promising - 1]!;
    return states.filter((_, place) => hopes[place]! <= last);
  };
  return { keep, dropped: () => dropped };
};

/**
 * Keeps the states that may come to a known cost or less, and none any more once there were too many in all; sums of
 * prices are a little apart by the order of adding.
 */
const within = (
  known: number,
  bound: LeastToGo,
  most: number,
): { readonly keep: Keep; readonly overdone: () => boolean } => {
  let total = 0;
  const keep: Keep = (moment, states) => {
    total += states.length;
    if (total > most) return [];
    return undominated(states.filter((state) => state.cost + bound(moment, state) <= known + 1e-3));
  };
  return { keep, overdone: () => total > most };
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

const cheapestOf = (states: readonly State[]): State => states.reduce((a, b) => (b.cost < a.cost ? b : a));

const readCourse = (winner: State, pedals: number, proved: boolean): FootCourse => {
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
    proved,
  };
};
