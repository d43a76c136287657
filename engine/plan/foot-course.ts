import type { Position } from '../harp/setting.ts';
import { boundFootCourse, type LeastToGo } from './foot-bound.ts';
import { letTimePass, type State } from './foot-state.ts';
import { isQuiet, passMoment } from './foot-steps.ts';
import type { FootTask, PrintedMove } from './printing.ts';
import { once } from './remembering.ts';
import { positionIn, type Stand, standsByMoment } from './stand.ts';

export interface FootCourse {
  readonly initial: readonly Position[];
  readonly moves: readonly PrintedMove[];
  readonly cost: number;
}

/** How many states at one moment are followed without a bound, and how many of more make a good course. */
export interface Patience {
  readonly many: number;
  readonly promising: number;
}

const PATIENCE: Patience = { many: 100, promising: 40 };

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
 * at once, which is small in real music. Where it is not, a search that keeps the most promising states alone first
 * finds a good course, and the exact one then leaves out every state that cannot come to less.
 */
export const findFootCourse = (asked: FootTask, patience: Patience = PATIENCE): FootCourse => {
  const task = { ...asked, priceAt: rememberPrices(asked.priceAt) };
  const stands = standsByMoment(task.choices, task.graph.moments);
  const bound = once(() => boundFootCourse(task, stands));
  const { keep, dropped } = narrowly(patience, bound);
  const found = cheapestState(search(task, stands, keep));
  const best = dropped() ? cheapestState(search(task, stands, within(found.cost, bound()))) : found;
  return readCourse(best, task.choices.length);
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
  const keep: Keep = (moment, states) => {
    if (states.length <= many) return states;
    dropped = true;
    const hopes = states.map((state) => state.cost + bound()(moment, state));
    const last = Float64Array.from(hopes).sort()[promising - 1]!;
    return states.filter((_, place) => hopes[place]! <= last);
  };
  return { keep, dropped: () => dropped };
};

/** Keeps the states that may come to a known cost or less; sums of prices are a little apart by the order of adding. */
const within =
  (known: number, bound: LeastToGo): Keep =>
  (moment, states) =>
    states.filter((state) => state.cost + bound(moment, state) <= known + 1e-3);

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

const cheapestState = (states: readonly State[]): State => states.reduce((a, b) => (b.cost < a.cost ? b : a));

const readCourse = (winner: State, pedals: number): FootCourse => {
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
