import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { DivisionWeights } from '../../../../engine/sharing/divide/division-weights.ts';
import { solveDivision } from '../../../../engine/sharing/divide/solve-division.ts';
import type { Players, Slice } from '../../../../engine/sharing/divide/strands.ts';
import '../../../property-seed.ts';
import { divisionByIntegerProgramme } from './integer-programme.ts';
import {
  LETTERS_USED,
  ownCost,
  positionsAt,
  SOME_WEIGHTS,
  someSlices,
  voiceOf,
  waysToGive,
} from './random-slices.ts';

/** The cost of a whole division, added up bar by bar and pedal by pedal. */
const costOf = (
  slices: readonly Slice[],
  players: readonly (readonly Players[])[],
  weights: DivisionWeights,
): number => {
  let cost = 0;
  for (const [i, slice] of slices.entries()) {
    cost += ownCost(slice, players[i]!, weights);
    const before = slices[i - 1];
    if (before === undefined || before.bar !== slice.bar - 1) continue;
    const price = slice.inPhrase ? weights.handOverInPhrase : weights.handOver;
    for (const voice of ['0', '1', '2']) {
      const [had, has] = [voiceOf(before, players[i - 1]!, voice), voiceOf(slice, players[i]!, voice)];
      if (had !== undefined && has !== undefined && had !== has) cost += price;
    }
  }
  for (const player of [1, 2] as const) {
    for (const letter of LETTERS_USED) {
      let stands: number | null = null;
      for (const [i, { strands }] of slices.entries()) {
        const own = strands.filter((_, s) => players[i]![s] === player || players[i]![s] === 'both');
        for (const at of [0, 1, 2, 3]) {
          const wanted = new Set(positionsAt(own, letter, at));
          if (wanted.size !== 1) continue;
          const [position] = wanted;
          if (stands !== null && stands !== position) cost += weights.move;
          stands = position!;
        }
      }
    }
  }
  return cost;
};

const cheapest = (slices: readonly Slice[], weights: DivisionWeights): number => {
  let best = Number.POSITIVE_INFINITY;
  const visit = (given: readonly (readonly Players[])[]): void => {
    if (given.length === slices.length) {
      best = Math.min(best, costOf(slices, given, weights));
      return;
    }
    for (const way of waysToGive(slices[given.length]!)) visit([...given, way]);
  };
  visit([]);
  return best;
};

describe('the division of strands between two players', () => {
  it('costs what its strands add up to, and no other costs less: every division of small parts is tried', () => {
    fc.assert(
      fc.property(someSlices(3, 3), (slices) => {
        const { cost, players, proved } = solveDivision(slices, SOME_WEIGHTS);
        expect(proved).toBe(true);
        expect(cost).toBeCloseTo(costOf(slices, players, SOME_WEIGHTS), 6);
        expect(cost).toBeCloseTo(cheapest(slices, SOME_WEIGHTS), 6);
      }),
      { numRuns: 150 },
    );
  });

  it('is as an integer programme has it for parts of six bars (HiGHS)', async () => {
    await fc.assert(
      fc.asyncProperty(someSlices(6, 3), async (slices) => {
        const { cost, proved } = solveDivision(slices, SOME_WEIGHTS);
        expect(proved).toBe(true);
        expect(cost).toBeCloseTo(await divisionByIntegerProgramme(slices, SOME_WEIGHTS), 4);
      }),
      { numRuns: 4 },
    );
  });
});
