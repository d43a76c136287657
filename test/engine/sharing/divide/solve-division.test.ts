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
  WEIGHTS_FOR_LESS,
  WEIGHTS_OF_TIME,
  waysToGive,
} from './random-slices.ts';

/** The letters of these parts by the foot that moves them. */
const FEET = [
  LETTERS_USED.filter((letter) => 'DCB'.includes(letter)),
  LETTERS_USED.filter((letter) => 'EFGA'.includes(letter)),
];

const costOfFoot = (
  slices: readonly Slice[],
  players: readonly (readonly Players[])[],
  weights: DivisionWeights,
  player: 1 | 2,
  letters: readonly string[],
): number => {
  const stands = new Map<string, number>();
  let cost = 0;
  for (const [i, { strands, crowded }] of slices.entries()) {
    const own = strands.filter((_, s) => players[i]![s] === player || players[i]![s] === 'both');
    let moves = 0;
    for (const letter of letters) {
      for (const at of [0, 1, 2, 3]) {
        const [position, ...others] = new Set(positionsAt(own, letter, at));
        if (position === undefined || others.length > 0) continue;
        if (stands.has(letter) && stands.get(letter) !== position) moves += 1;
        stands.set(letter, position);
      }
    }
    cost += weights.move * moves + (crowded ? (weights.crowded * moves * (moves - 1)) / 2 : 0);
  }
  return cost;
};

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
    for (const letters of FEET) cost += costOfFoot(slices, players, weights, player, letters);
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
  it.each([
    ['two players alike', SOME_WEIGHTS, 60],
    ['as little as can be for the second', WEIGHTS_FOR_LESS, 60],
    ['feet that may lack time', WEIGHTS_OF_TIME, 60],
  ])(
    'costs what its strands add up to, and no other costs less: every division of small parts is tried (%s)',
    (_, weights, numRuns) => {
      fc.assert(
        fc.property(someSlices(3, 3), (slices) => {
          const { cost, players, proved } = solveDivision(slices, weights);
          expect(proved).toBe(true);
          expect(cost).toBeCloseTo(costOf(slices, players, weights), 6);
          expect(cost).toBeCloseTo(cheapest(slices, weights), 6);
        }),
        { numRuns },
      );
    },
  );

  it.each([
    ['two players alike', SOME_WEIGHTS, 4],
    ['as little as can be for the second', WEIGHTS_FOR_LESS, 8],
  ])('is as an integer programme has it for parts of some bars (HiGHS, %s)', async (_, weights, bars) => {
    await fc.assert(
      fc.asyncProperty(someSlices(bars, 3), async (slices) => {
        const { cost, proved } = solveDivision(slices, weights);
        expect(proved).toBe(true);
        expect(cost).toBeCloseTo(await divisionByIntegerProgramme(slices, weights), 4);
      }),
      { numRuns: 3 },
    );
  });
});
