import type { Position } from '../../../../engine/harp/setting.ts';
import type { FootTask } from '../../../../engine/pedals/course/foot-changes.ts';
import { DEFAULT_WEIGHTS } from '../../../../engine/pedals/weights.ts';
import { candidatePositions } from '../../../../engine/sounding/candidate-positions.ts';
import type { Need } from '../../../../engine/sounding/needs.ts';
import type { PlacedNeed } from '../../../../engine/sounding/placed-needs.ts';
import type { PlayEdge } from '../../../../engine/time/play-graph.ts';

/** Numbers from 0 to 1 that are the same for the same seed (a linear congruential generator). */
export const seededRandom = (seed: number): (() => number) => {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
};

/** A chromatic part for one foot of four pedals, read straight through: about a third of the moments ask for something. */
export const randomTask = (moments: number, seed: number): FootTask => {
  const random = seededRandom(seed);
  const edges: PlayEdge[] = Array.from({ length: moments }, (_, to) => ({
    from: to - 1,
    to,
    seconds: random() < 0.3 ? 0.1 : 0.3,
  }));
  const graph = {
    moments,
    start: 0,
    into: edges.map((edge, i) => (i === 0 ? [] : [edge])),
    outOf: edges.map((_, i) => (i + 1 < moments ? [edges[i + 1]!] : [])),
    played: edges.map(({ to }) => to),
  };
  const prices = Array.from({ length: 4 }, () =>
    Array.from({ length: moments }, () => Math.floor(random() * 50)),
  );
  const choices = prices.map(() => {
    const needs: PlacedNeed[] = [];
    for (let moment = 0; moment < moments; moment += 1) {
      if (random() > 0.3) continue;
      const position = (Math.floor(random() * 3) - 1) as Position;
      needs.push({ need: { position } as unknown as Need, moment });
    }
    return candidatePositions(needs, graph, 0).at;
  });
  return {
    choices,
    graph,
    footRestSeconds: 0.25,
    priceAt: (pedal, moment) => prices[pedal]![moment]!,
    perMove: DEFAULT_WEIGHTS.move,
    priceAtStart: () => 0,
    restoring: 0,
    tooSoon: DEFAULT_WEIGHTS.footTooBusy,
    spacing: { price: DEFAULT_WEIGHTS.closeMoves, comfortableSeconds: 1 },
    together: null,
  };
};
