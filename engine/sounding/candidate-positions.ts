import { POSITIONS, type Position } from '../harp/setting.ts';
import { type PlayGraph, stepsReadStraight } from '../time/play-graph.ts';
import type { PlacedNeed } from './placed-needs.ts';

/** Positions that one pedal may take, by moment, at least one each. Equal lists are one and the same. */
export interface PositionChoices {
  readonly at: readonly (readonly Position[])[];
}

/**
 * The positions worth considering for one pedal.
 *
 * At a moment with needs: those that serve most of them (unmet needs outweigh everything else). Elsewhere: the
 * positions of the needs that can be reached, forwards or backwards, without passing another need. No better plan
 * leaves these: a stretch of moments in any other position holds no need for it, and giving the whole stretch the
 * position of a neighbour drops markings and adds none. Linear in moments and needs.
 *
 * @param idle position of a pedal that nothing needs
 * @param pinned positions that the user fixed, by moment; they outweigh the notes
 */
export const candidatePositions = (
  needs: readonly PlacedNeed[],
  graph: PlayGraph,
  idle: Position,
  pinned: ReadonlyMap<number, Position> = new Map(),
): PositionChoices => {
  const sets = mostNeeded(needs, graph.moments);
  for (const [moment, position] of pinned) sets[moment] = bitOf(position);
  floodFree(sets, graph, idle);
  const at: (readonly Position[])[] = [];
  for (const set of sets) at.push(LISTED[set]!);
  return { at };
};

/** Sets of positions are bits: 1 flat, 2 natural, 4 sharp; 0 where nothing is known yet. */
type PositionSet = number;

const bitOf = (position: Position): PositionSet => 1 << (position + 1);

const LISTED: readonly (readonly Position[])[] = Array.from({ length: 8 }, (_, set) =>
  POSITIONS.filter((position) => set & bitOf(position)),
);

/** By moment, the positions that most of the needs there ask for. */
const mostNeeded = (needs: readonly PlacedNeed[], moments: number): Uint8Array => {
  const counts = new Uint32Array(3 * moments);
  for (const { need, moment } of needs) counts[3 * moment + need.position + 1]! += 1;
  const sets = new Uint8Array(moments);
  for (const { moment } of needs) {
    const [flat, natural, sharp] = [counts[3 * moment]!, counts[3 * moment + 1]!, counts[3 * moment + 2]!];
    const most = Math.max(flat, natural, sharp);
    sets[moment] = Number(flat === most) | (Number(natural === most) << 1) | (Number(sharp === most) << 2);
  }
  return sets;
};

/** Gives each connected stretch of moments without needs the positions of the needs around it. */
const floodFree = (sets: Uint8Array, graph: PlayGraph, idle: Position): void =>
  stepsReadStraight(graph) === null ? floodAlong(sets, graph, idle) : floodStraight(sets, idle);

const floodStraight = (sets: Uint8Array, idle: Position): void => {
  for (let first = 0; first < sets.length; first += 1) {
    if (sets[first] !== 0) continue;
    let next = first + 1;
    while (next < sets.length && sets[next] === 0) next += 1;
    const around = (sets[first - 1] ?? 0) | (sets[next] ?? 0);
    sets.fill(around === 0 ? bitOf(idle) : around, first, next);
  }
};

const floodAlong = (sets: Uint8Array, graph: PlayGraph, idle: Position): void => {
  const stretch = new Int32Array(graph.moments);
  const seen = new Uint8Array(graph.moments);
  for (let seed = 0; seed < graph.moments; seed += 1) {
    if (sets[seed] !== 0) continue;
    let around = 0;
    let length = 0;
    const meet = (moment: number): void => {
      around |= sets[moment]!;
      if (sets[moment] !== 0 || seen[moment] === 1) return;
      seen[moment] = 1;
      stretch[length] = moment;
      length += 1;
    };
    meet(seed);
    for (let i = 0; i < length; i += 1) {
      for (const edge of graph.into[stretch[i]!]!) meet(edge.from);
      for (const edge of graph.outOf[stretch[i]!]!) meet(edge.to);
    }
    const found = around === 0 ? bitOf(idle) : around;
    for (let i = 0; i < length; i += 1) sets[stretch[i]!] = found;
  }
};
