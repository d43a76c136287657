import type { PlayEdge } from '../../time/play-graph.ts';
import { hasRested } from '../../time/rested.ts';
import { changesForArrival, costOfMoves, type FootTask } from './foot-changes.ts';
import { type FootPositions, movedPedals, pedalIndices } from './foot-positions.ts';
import {
  ageJumps,
  BestStates,
  changeJumps,
  type Departure,
  type FootState,
  NONE_TOO_SOON,
  type OpenJumps,
  pendingOf,
  recordMoves,
  roundedUntilRested,
} from './foot-state.ts';
import { priceOfSpacing } from './spacing.ts';

/**
 * The states after a moment to which nothing but the moment before it leads: the foot stays, or moves there.
 *
 * All moves to one stand make one state, whatever came before. So of the states that stand alike, remember the same of
 * jumps and have rested alike, only the one that comes to a move at the least cost has to be tried for moves.
 */
export const readOn = (
  task: FootTask,
  moment: number,
  choices: readonly FootPositions[],
  states: readonly FootState[],
  { seconds }: PlayEdge,
): readonly FootState[] => {
  const list = new BestStates();
  const agedJumps = shareAgedJumps(seconds, task.footRestSeconds);
  const canMove = choices.length > 1 || states.some(({ positions }) => choices[0] !== positions);
  const toMove = canMove ? statesToMove(task, states, seconds) : NONE;
  // Without jumps all moves to one stand are of one kind: what cannot come to less than the best is not worked out.
  const cheapest: number[] = [];
  for (const state of states) {
    const stayed = stay(task, state, seconds, agedJumps(state.open));
    const mover = toMove.has(state) ? moverOf(task, state, stayed) : null;
    for (let i = 0; i < choices.length; i += 1) {
      const positions = choices[i]!;
      if (positions === state.positions) list.offer(stayed);
      else if (mover !== null && mayCostLess(task, mover, positions, cheapest[i])) {
        const cost = offerMove(task, list, moment, mover, positions);
        if (state.open.key === '' && !(cost >= cheapest[i]!)) cheapest[i] = cost;
      }
    }
  }
  return list.states;
};

const NONE: ReadonlySet<FootState> = new Set();

type AgedJumps = (open: OpenJumps) => OpenJumps;

/** What is open at jumps, some time later: one object for all states that share one. */
const shareAgedJumps = (seconds: number, restSeconds: number): AgedJumps => {
  let aged: Map<OpenJumps, OpenJumps> | null = null;
  return (open) => {
    if (open.landings.size === 0) return open;
    aged ??= new Map();
    let now = aged.get(open);
    if (now === undefined) {
      now = ageJumps(open, seconds, restSeconds);
      aged.set(open, now);
    }
    return now;
  };
};

/** The state once the time to the moment has gone by; itself where that makes no difference. */
const stay = (
  { footRestSeconds, spacing }: FootTask,
  state: FootState,
  seconds: number,
  open: OpenJumps,
): FootState => {
  const since = roundedUntilRested(state.since + seconds, footRestSeconds);
  const sinceRead = roundedUntilRested(state.sinceRead + seconds, spacing.comfortableSeconds);
  if (since === state.since && sinceRead === state.sinceRead && open === state.open) return state;
  const { initial, positions, cost, history } = state;
  return { initial, positions, since, sinceRead, open, cost, history };
};

/** A state and what it comes to with the price of moving so soon after its last move. */
interface Mover {
  readonly state: FootState;
  readonly cost: number;
}

/** A state that is to move, once the time to the moment has gone by. */
interface Moving extends Mover {
  readonly stayed: FootState;
  readonly isRested: boolean;
}

const moverOf = ({ footRestSeconds, spacing }: FootTask, state: FootState, stayed: FootState): Moving => ({
  state,
  stayed,
  cost: state.cost + priceOfSpacing(spacing, footRestSeconds, stayed.sinceRead),
  isRested: hasRested(stayed.since, footRestSeconds),
});

/** Prices are sums of 1024ths: what is apart by more than one of them is not so by the order of adding. */
const LEAST_APART = 1e-3;

/** Whether moves to a stand may come to less than a cost, by their number and haste alone. */
const mayCostLess = (
  { perMove, tooSoon, together }: FootTask,
  { state, cost, isRested }: Moving,
  positions: FootPositions,
  known: number | undefined,
): boolean => {
  if (known === undefined) return true;
  const moves = pedalIndices(movedPedals(state.positions, positions)).length;
  const haste = (moves - 1) * Math.min(tooSoon, together ?? tooSoon) + (isRested ? 0 : tooSoon);
  return cost + moves * perMove + haste - LEAST_APART < known;
};

/**
 * The states that moves are worth trying from: of those for which moves cost alike otherwise the cheapest, and the
 * first, so that of equal courses the same is taken as if all were tried.
 */
const statesToMove = (
  { footRestSeconds, spacing }: FootTask,
  states: readonly FootState[],
  seconds: number,
): ReadonlySet<FootState> => {
  const chosen = new Set<FootState>();
  if (states.length === 1) return chosen.add(states[0]!);
  const best = new Map<string, Map<number, Mover>>();
  for (const state of states) {
    const isRested = hasRested(state.since + seconds, footRestSeconds);
    const sinceRead = roundedUntilRested(state.sinceRead + seconds, spacing.comfortableSeconds);
    const cost = state.cost + priceOfSpacing(spacing, footRestSeconds, sinceRead);
    const ofJumps = best.get(state.open.key) ?? new Map<number, Mover>();
    if (ofJumps.size === 0) best.set(state.open.key, ofJumps);
    const key = 2 * state.positions + Number(isRested);
    const known = ofJumps.get(key);
    if (known === undefined) chosen.add(state);
    if (known === undefined || cost < known.cost) ofJumps.set(key, { state, cost });
  }
  for (const ofJumps of best.values()) for (const { state } of ofJumps.values()) chosen.add(state);
  return chosen;
};

/** @returns what the moves to the stand come to */
const offerMove = (
  task: FootTask,
  list: BestStates,
  moment: number,
  { state: before, stayed, cost: costBefore }: Moving,
  positions: FootPositions,
): number => {
  const arrival: Departure = {
    positions: before.positions,
    since: stayed.since,
    pending: pendingOf(stayed.open.landings),
  };
  const arrivals = [arrival];
  const changes = changesForArrival(task, arrival, positions);
  const cost = costBefore + costOfMoves(task, changes, moment, arrivals, positions);
  const landings = recordMoves(before.open.landings, arrivals, positions, moment, changes.tooSoon);
  const open = changeJumps(before.open, landings, before.open.departures);
  if (!list.wants({ positions, since: 0, sinceRead: 0, open }, cost)) return cost;
  const earlier = before.history;
  const history = { changes, moment, arrivals, positions, tooSoon: NONE_TOO_SOON, earlier };
  list.offer({ initial: before.initial, positions, since: 0, sinceRead: 0, open, cost, history });
  return cost;
};
