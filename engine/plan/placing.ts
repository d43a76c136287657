/**
 * Places the moves of one foot. Each move has a window of moments and a price for each of them; the foot makes one
 * move at a moment and rests between two.
 */
export interface MoveToPlace {
  /** Index of the pedal among the foot's pedals; windows of one pedal do not overlap. */
  readonly pedal: number;
  /** The move is made after moment `open`, at the latest at moment `close`. */
  readonly open: number;
  readonly close: number;
  /** Price of making it at a moment of the window; adding prices is allowed to reach any finite sum. */
  readonly priceAt: (moment: number) => number;
}

/** For each move in the order given, its moment, and whether the foot had no time for it. */
export interface Placing {
  readonly moments: readonly number[];
  readonly tooSoon: readonly boolean[];
  readonly cost: number;
}

interface State {
  /** Bit set: the pedal's current move is made. */
  readonly done: number;
  /** Moment of the foot's last move while it still matters, else -1. */
  readonly last: number;
  readonly cost: number;
  readonly trail: Trail | null;
}

/** The moves made so far, newest first. */
interface Trail {
  readonly move: number;
  readonly moment: number;
  readonly tooSoon: boolean;
  readonly earlier: Trail | null;
}

/**
 * The cheapest placing, exact: a dynamic programme over the moments whose state is which pending moves are done and
 * when the foot last moved. A move that breaks the rest is allowed at `tooSoonPrice`, so that an answer always exists.
 *
 * Time: moments inside windows × 2^(pedals) × moments within one rest; with four pedals a few dozen states a moment.
 *
 * @param seconds clock time of each moment, ascending
 */
export const placeMoves = (
  moves: readonly MoveToPlace[],
  seconds: readonly number[],
  restSeconds: number,
  tooSoonPrice: number,
): Placing => {
  const byOpen = moves.map((_, i) => i).sort((a, b) => moves[a]!.open - moves[b]!.open);
  const active: (number | undefined)[] = [];
  let states: State[] = [{ done: 0, last: -1, cost: 0, trail: null }];
  let next = 0;
  let moment = 0;
  while (next < byOpen.length || active.some((move) => move !== undefined)) {
    if (active.every((move) => move === undefined)) moment = Math.max(moment, moves[byOpen[next]!]!.open + 1);
    while (next < byOpen.length && moves[byOpen[next]!]!.open < moment) {
      active[moves[byOpen[next]!]!.pedal] = byOpen[next]!;
      next += 1;
    }
    states = forgetRested(states, seconds, moment, restSeconds);
    for (const move of active) {
      if (move !== undefined) states = offer(states, moves, move, moment, tooSoonPrice);
    }
    for (const [pedal, move] of active.entries()) {
      if (move !== undefined && moves[move]!.close === moment) {
        states = cheapest(
          states
            .filter((state) => state.done & (1 << pedal))
            .map((state) => ({ ...state, done: state.done & ~(1 << pedal) })),
        );
        active[pedal] = undefined;
      }
    }
    moment += 1;
  }
  return readTrail(states, moves.length);
};

/** A foot that has rested is free: states that differ only in an old last move become one. */
const forgetRested = (
  states: readonly State[],
  seconds: readonly number[],
  moment: number,
  restSeconds: number,
): State[] =>
  cheapest(
    states.map((state) =>
      state.last >= 0 && seconds[moment]! - seconds[state.last]! >= restSeconds - 1e-9
        ? { ...state, last: -1 }
        : state,
    ),
  );

/** Each state goes on without the move, and, where it is still to be made, with it. */
const offer = (
  states: readonly State[],
  moves: readonly MoveToPlace[],
  move: number,
  moment: number,
  tooSoonPrice: number,
): State[] => {
  const { pedal, priceAt } = moves[move]!;
  const bit = 1 << pedal;
  const price = priceAt(moment);
  const made = states
    .filter((state) => (state.done & bit) === 0)
    .map((state) => {
      const tooSoon = state.last >= 0;
      return {
        done: state.done | bit,
        last: moment,
        cost: state.cost + price + (tooSoon ? tooSoonPrice : 0),
        trail: { move, moment, tooSoon, earlier: state.trail },
      };
    });
  return cheapest([...states, ...made]);
};

const cheapest = (states: readonly State[]): State[] => {
  const best = new Map<number, State>();
  for (const state of states) {
    const key = (state.last + 1) * 16 + state.done;
    const known = best.get(key);
    if (known === undefined || state.cost < known.cost) best.set(key, state);
  }
  return [...best.values()];
};

const readTrail = (states: readonly State[], count: number): Placing => {
  const winner = states.reduce((a, b) => (b.cost < a.cost ? b : a));
  const moments = new Array<number>(count).fill(-1);
  const tooSoon = new Array<boolean>(count).fill(false);
  for (let trail = winner.trail; trail !== null; trail = trail.earlier) {
    moments[trail.move] = trail.moment;
    tooSoon[trail.move] = trail.tooSoon;
  }
  return { moments, tooSoon, cost: winner.cost };
};
