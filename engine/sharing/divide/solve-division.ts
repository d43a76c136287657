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
  /** Two bits for each pedal of each player, as `codeOf` has positions. */
  readonly pedals: number;
  readonly voices: VoiceOwners;
  readonly way: SliceWay | null;
  readonly before: State | null;
}

/** Who has each voice, with a number by which it is known again. */
interface VoiceOwners {
  readonly id: number;
  readonly owners: SliceWay['voices'];
}

/** Beyond, the cheapest are followed, and the division is not proved. */
const MOST_STATES = 256;

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
  const known = internVoices();
  let states: readonly State[] = [{ cost: 0, pedals: 0, voices: known(new Map()), way: null, before: null }];
  for (const [i, slice] of slices.entries()) {
    const follows = i > 0 && slices[i - 1]!.bar === slice.bar - 1;
    const ways = waysOf(slice, weights).map((way) => packWay(way, known));
    const reached = reachStates(states, ways, readPrices(slice, follows, weights));
    const kept = dropDominated(reached, weights, slices);
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

const internVoices = (): ((owners: SliceWay['voices']) => VoiceOwners) => {
  const known = new Map<string, VoiceOwners>();
  return (owners) => {
    const name = [...owners].map((each) => each.join('=')).join();
    const found = known.get(name) ?? { id: known.size, owners };
    known.set(name, found);
    return found;
  };
};

/** A position in two bits; nought where a pedal was not wanted yet. */
const codeOf = (position: Position | null): number => (position === null ? 0 : position + 2);

/** A way to divide a bar, as numbers by pedal. */
interface PackedWay {
  readonly way: SliceWay;
  readonly voices: VoiceOwners;
  readonly first: readonly number[];
  readonly last: readonly number[];
  readonly changes: readonly number[];
}

const packWay = (way: SliceWay, known: (owners: SliceWay['voices']) => VoiceOwners): PackedWay => ({
  way,
  voices: known(way.voices),
  first: way.courses.map((course) => codeOf(course?.first ?? null)),
  last: way.courses.map((course) => codeOf(course?.last ?? null)),
  changes: way.courses.map((course) => course?.changes ?? 0),
});

/** What the moves of a foot cost in a bar, and what it costs that voices change hands at its start. */
interface Prices {
  readonly ofMoves: (count: number) => number;
  readonly ofHandOver: number;
}

const readPrices = ({ inPhrase, crowded }: Slice, follows: boolean, weights: DivisionWeights): Prices => ({
  ofMoves: (count) => weights.move * count + (crowded ? (weights.crowded * count * (count - 1)) / 2 : 0),
  ofHandOver: follows ? (inPhrase ? weights.handOverInPhrase : weights.handOver) : 0,
});

/** The cheapest state of each kind that a bar leads to. */
const reachStates = (
  states: readonly State[],
  ways: readonly PackedWay[],
  prices: Prices,
): readonly State[] => {
  const reached = new Map<number, State>();
  const handOvers = new Map<number, number>();
  for (const state of states) {
    for (const way of ways) {
      const pair = state.voices.id * VOICES_KNOWN + way.voices.id;
      const changed = handOvers.get(pair) ?? countHandOvers(state.voices.owners, way.voices.owners);
      handOvers.set(pair, changed);
      const { moves, pedals } = step(state.pedals, way, prices);
      const cost = state.cost + way.way.cost + moves + prices.ofHandOver * changed;
      const key = way.voices.id * PEDAL_STATES + pedals;
      const known = reached.get(key);
      if (known === undefined || cost < known.cost)
        reached.set(key, { cost, pedals, voices: way.voices, way: way.way, before: state });
    }
  }
  return [...reached.values()];
};

/** Two bits for each of fourteen pedals. */
const PEDAL_STATES = 2 ** 28;
/** More than there are ways to own the voices of a bar, in all bars. */
const VOICES_KNOWN = 2 ** 24;

const PEDALS = Array.from({ length: 14 }, (_, index) => index);
const FOOT_OF = PEDALS.map(footAt);

/** What one bar makes of the pedals, and what their moves cost. */
const step = (
  pedals: number,
  { first, last, changes }: PackedWay,
  prices: Prices,
): { readonly moves: number; readonly pedals: number } => {
  const moved: number[] = Array(FOOT_COUNT).fill(0);
  let next = 0;
  for (const index of PEDALS) {
    const stands = (pedals >> (2 * index)) & 3;
    if (first[index] === 0) {
      next |= stands << (2 * index);
      continue;
    }
    const enters = stands !== 0 && stands !== first[index] ? 1 : 0;
    moved[FOOT_OF[index]!]! += enters + changes[index]!;
    next |= last[index]! << (2 * index);
  }
  return { moves: moved.reduce((sum, count) => sum + prices.ofMoves(count), 0), pedals: next };
};

const countHandOvers = (had: SliceWay['voices'], has: SliceWay['voices']): number =>
  [...has].filter(([voice, player]) => had.has(voice) && had.get(voice) !== player).length;

/** Pedals of a foot that a difference in the state can hinder, in a crowded bar. */
const MOST_WITH = 4;

/** Moves of one foot in a bar, far more than any has. */
const MOST_MOVES = 16;

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
    const pedals = PEDALS.filter((index) => {
      const stands = (best.pedals >> (2 * index)) & 3;
      return stands !== 0 && stands !== ((state.pedals >> (2 * index)) & 3);
    }).length;
    const voices = [...best.voices.owners].filter(
      ([voice, player]) => state.voices.owners.get(voice) !== player,
    ).length;
    return state.cost < best.cost + pedals * perPedal + voices * perVoice;
  });
};
