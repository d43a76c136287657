import fc from 'fast-check';
import type { DivisionWeights } from '../../../../engine/sharing/divide/division-weights.ts';
import type { Players, Slice, Strand } from '../../../../engine/sharing/divide/strands.ts';
import { smallPart } from '../../../part-builder.ts';

const LETTERS = ['C', 'D', 'E', 'F'] as const;

/** A strand of some notes on few letters, so that pedals are wanted differently often. */
const someStrand = (voices: number) =>
  fc
    .record({
      voice: fc.nat(voices - 1).map((voice) => `${voice}`),
      told: fc.oneof(
        { weight: 6, arbitrary: fc.constant(null) },
        { weight: 1, arbitrary: fc.constantFrom<Players>(1, 2, 'both') },
      ),
      demands: fc.array(
        fc.record({
          at: fc.nat(3),
          letter: fc.constantFrom(...LETTERS),
          position: fc.constantFrom(-1 as const, 0 as const, 1 as const),
        }),
        { minLength: 1, maxLength: 4 },
      ),
    })
    .map(({ voice, told, demands }): Strand => ({ voice, told, demands, notes: notesFor(demands.length) }));

const NOTES = smallPart({ upper: 'C4/1 C4/1 C4/1 C4/1' }).notes;

const notesFor = (count: number) => NOTES.slice(0, count);

/** Bars of a few strands, some after a bar of rest. */
export const someSlices = (bars: number, strands: number): fc.Arbitrary<readonly Slice[]> =>
  fc
    .array(
      fc.record({
        strands: fc.array(someStrand(3), { minLength: 1, maxLength: strands }),
        inPhrase: fc.boolean(),
        rests: fc.boolean(),
        crowded: fc.boolean(),
      }),
      { minLength: 1, maxLength: bars },
    )
    .map((drawn) => {
      let bar = -1;
      return drawn.map(({ strands: each, inPhrase, rests, crowded }): Slice => {
        bar += rests ? 2 : 1;
        return { bar, strands: each, inPhrase, crowded, joined: false };
      });
    });

/** Prices unlike the usual ones, so that each of them decides now and then. */
export const SOME_WEIGHTS: DivisionWeights = {
  clash: 1000,
  reach: 100,
  crowded: 0,
  second: 0,
  move: 10,
  handOverInPhrase: 12,
  handOver: 6,
  broken: 4,
  unbalanced: 0.25,
};

/** The same where the second is to have as little as can be. */
export const WEIGHTS_FOR_LESS: DivisionWeights = { ...SOME_WEIGHTS, second: 7, unbalanced: 0 };

/** The same where feet may lack time. */
export const WEIGHTS_OF_TIME: DivisionWeights = { ...SOME_WEIGHTS, crowded: 9 };

/** Every way to give the strands of a bar to players. */
export const waysToGive = ({ strands }: Slice): readonly (readonly Players[])[] => {
  let ways: readonly (readonly Players[])[] = [[]];
  for (const { told } of strands) {
    const possible: readonly Players[] = told === null ? [1, 2] : [told];
    ways = ways.flatMap((way) => possible.map((player) => [...way, player]));
  }
  return ways;
};

/** What a bar costs by itself, worked out anew: clashes, broken voices, balance. All notes of these parts are in reach. */
export const ownCost = (
  { strands }: Slice,
  players: readonly Players[],
  weights: DivisionWeights,
): number => {
  let cost = 0;
  const counts = { 1: 0, 2: 0 };
  for (const player of [1, 2] as const) {
    const own = strands.filter((_, i) => players[i] === player || players[i] === 'both');
    for (const letter of LETTERS) {
      for (const at of [0, 1, 2, 3]) {
        const wanted = new Set(positionsAt(own, letter, at));
        if (wanted.size > 1) cost += weights.clash;
      }
    }
    counts[player] = own.reduce((sum, { notes }) => sum + notes.length, 0);
  }
  for (const voice of new Set(strands.map((strand) => strand.voice))) {
    if (voiceOf({ strands }, players, voice) === 'split') cost += weights.broken;
  }
  return cost + weights.second * counts[2] + weights.unbalanced * Math.abs(counts[1] - counts[2]);
};

export const positionsAt = (own: readonly Strand[], letter: string, at: number): readonly number[] =>
  own.flatMap(({ demands }) =>
    demands.filter((each) => each.letter === letter && each.at === at).map(({ position }) => position),
  );

/** Who has a voice in a bar; undefined where it is silent. */
export const voiceOf = (
  { strands }: Pick<Slice, 'strands'>,
  players: readonly Players[],
  voice: string,
): Players | 'split' | undefined => {
  const own = new Set(strands.flatMap((strand, i) => (strand.voice === voice ? [players[i]!] : [])));
  return own.size > 1 ? 'split' : [...own][0];
};

export const LETTERS_USED = LETTERS;
