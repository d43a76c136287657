import type { Position } from '../../harp/setting.ts';
import type { DivisionWeights } from './division-weights.ts';
import { FOOT_COUNT, footAt, type SliceWay, waysOf } from './slice-ways.ts';
import type { Players, Slice } from './strands.ts';

/** Who plays each strand of each bar. */
export interface Division {
  readonly players: readonly (readonly Players[])[];
  readonly cost: number;
  /** Whether no division of these strands costs less. */
  readonly proved: boolean;
}

/** How far the division has come: where the pedals were last wanted, and who has each voice. */
interface State {
  readonly cost: number;
  readonly pedals: readonly (Position | null)[];
  readonly voices: SliceWay['voices'];
  readonly way: SliceWay | null;
  readonly before: State | null;
}

/** Beyond, the cheapest are followed, and the division is not proved. */
const MOST_STATES = 800;

/**
 * The division of strands between two players that costs least: a dynamic programme over the bars in printed order, whose
 * states are where each player's pedals were last wanted and who had each voice. Feet are taken to have time for every
 * move: whether they have, the plans of both parts say.
 *
 * Exact where `proved`: a state is dropped only where another comes to its pedals and voices for less.
 * Time: bars × states × ways of a bar.
 */
export const solveDivision = (slices: readonly Slice[], weights: DivisionWeights): Division => {
  let proved = slices.every(({ joined }) => !joined);
  let states: readonly State[] = [
    { cost: 0, pedals: Array(14).fill(null), voices: new Map(), way: null, before: null },
  ];
  for (const [i, slice] of slices.entries()) {
    const follows = i > 0 && slices[i - 1]!.bar === slice.bar - 1;
    const ways = waysOf(slice, weights);
    const reached = new Map<string, State>();
    for (const state of states) {
      for (const way of ways) {
        const next = advance(state, way, slice, follows, weights);
        const key = keyOf(next);
        const known = reached.get(key);
        if (known === undefined || next.cost < known.cost) reached.set(key, next);
      }
    }
    const kept = dropDominated([...reached.values()], weights, slices);
    if (kept.length > MOST_STATES) proved = false;
    states = kept.slice(0, MOST_STATES);
  }
  const [best] = states;
  const players: (readonly Players[])[] = [];
  for (let state: State | null = best!; state?.way != null; state = state.before) {
    players.unshift(state.way.players);
  }
  return { players, cost: best!.cost, proved };
};

const keyOf = ({ pedals, voices }: State): string =>
  `${pedals.map((position) => position ?? '').join()};${[...voices].map(([voice, player]) => `${voice}=${player}`).join()}`;

const advance = (
  state: State,
  way: SliceWay,
  { inPhrase, crowded }: Slice,
  follows: boolean,
  weights: DivisionWeights,
): State => {
  let cost = state.cost + way.cost;
  const moved: number[] = Array(FOOT_COUNT).fill(0);
  const pedals = state.pedals.map((position, index) => {
    const course = way.courses[index]!;
    if (course === null) return position;
    const enters = position !== null && position !== course.first ? 1 : 0;
    moved[footAt(index)]! += enters + course.changes;
    return course.last;
  });
  for (const count of moved) {
    cost += weights.move * count;
    if (crowded) cost += (weights.crowded * count * (count - 1)) / 2;
  }
  if (follows) {
    const price = inPhrase ? weights.handOverInPhrase : weights.handOver;
    for (const [voice, player] of way.voices) {
      const had = state.voices.get(voice);
      if (had !== undefined && had !== player) cost += price;
    }
  }
  return { cost, pedals, voices: way.voices, way, before: state };
};

/** Pedals of a foot that a difference in the state can hinder, in a crowded bar. */
const MOST_WITH = 4;

/**
 * Without the states that the cheapest one is never worse than, since it comes to their pedals by a move each and to
 * their voices by a hand-over each; the cheapest first.
 */
const dropDominated = (
  states: readonly State[],
  weights: DivisionWeights,
  slices: readonly Slice[],
): readonly State[] => {
  const sorted = [...states].sort((a, b) => a.cost - b.cost);
  const best = sorted[0]!;
  const isCrowded = slices.some(({ crowded }) => crowded);
  // One more move of a foot makes a pair with each of those that it makes in the bar.
  const perPedal = weights.move + (isCrowded ? weights.crowded * MOST_WITH * MOST_MOVES : 0);
  const perVoice = Math.max(weights.handOver, weights.handOverInPhrase);
  return sorted.filter((state) => {
    if (state === best) return true;
    const pedals = best.pedals.filter(
      (position, i) => position !== null && position !== state.pedals[i],
    ).length;
    const voices = [...best.voices].filter(([voice, player]) => state.voices.get(voice) !== player).length;
    return state.cost < best.cost + pedals * perPedal + voices * perVoice;
  });
};

/** Moves of one foot in a bar, far more than any has. */
const MOST_MOVES = 16;
