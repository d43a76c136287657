import type { Position } from '../harp/setting.ts';
import { POSITIONS } from '../harp/setting.ts';
import type { Need } from './needs.ts';
import type { PlayGraph } from './play-graph.ts';

/** A need at one moment; a trill or a glissando needs its pedal at every moment of its span. */
export interface PlacedNeed {
  readonly need: Need;
  readonly moment: number;
}

/** Where one pedal may stand at each moment, and what cannot be served wherever it stands. */
export interface PedalChoices {
  /** Positions by moment, at least one each. */
  readonly at: readonly (readonly Position[])[];
  /** Moments at which notes or pins leave no choice of their own. */
  readonly bound: readonly boolean[];
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
export const choicesOf = (
  needs: readonly PlacedNeed[],
  graph: PlayGraph,
  idle: Position,
  pinned: ReadonlyMap<number, Position> = new Map(),
): PedalChoices => {
  const at: (readonly Position[] | undefined)[] = new Array(graph.moments).fill(undefined);
  for (const [moment, counts] of countNeeds(needs)) {
    const most = Math.max(...counts.values());
    at[moment] = POSITIONS.filter((position) => counts.get(position) === most);
  }
  for (const [moment, position] of pinned) at[moment] = [position];
  const bound = at.map((positions) => positions !== undefined);
  floodFree(at, graph, idle);
  return { at: at as readonly (readonly Position[])[], bound };
};

const countNeeds = (needs: readonly PlacedNeed[]): Map<number, Map<Position, number>> => {
  const counts = new Map<number, Map<Position, number>>();
  for (const { need, moment } of needs) {
    const here = counts.get(moment) ?? new Map<Position, number>();
    here.set(need.position, (here.get(need.position) ?? 0) + 1);
    counts.set(moment, here);
  }
  return counts;
};

/** Gives each connected stretch of moments without needs the positions of the needs around it. */
const floodFree = (at: (readonly Position[] | undefined)[], graph: PlayGraph, idle: Position): void => {
  for (let seed = 0; seed < at.length; seed += 1) {
    if (at[seed] !== undefined) continue;
    const stretch: number[] = [seed];
    const around = new Set<Position>();
    const seen = new Set(stretch);
    for (let i = 0; i < stretch.length; i += 1) {
      const here = stretch[i]!;
      const next = [
        ...graph.into[here]!.map((edge) => edge.from),
        ...graph.outOf[here]!.map((edge) => edge.to),
      ];
      for (const each of next) {
        const positions = at[each];
        if (positions !== undefined) for (const position of positions) around.add(position);
        else if (!seen.has(each)) {
          seen.add(each);
          stretch.push(each);
        }
      }
    }
    const found = around.size === 0 ? [idle] : POSITIONS.filter((position) => around.has(position));
    for (const moment of stretch) at[moment] = found;
  }
};
