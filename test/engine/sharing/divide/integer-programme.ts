import type { DivisionWeights } from '../../../../engine/sharing/divide/division-weights.ts';
import type { Slice } from '../../../../engine/sharing/divide/strands.ts';
import { solveProgramme } from '../../integer-programme.ts';
import { LETTERS_USED, ownCost, positionsAt, voiceOf, waysToGive } from './random-slices.ts';

/**
 * The cost of the cheapest division as an integer programme: `w` says which way a bar is divided, `p` where a pedal
 * stands at a moment, `m` that it has moved, `h` that a voice has changed players.
 */
export const divisionByIntegerProgramme = (
  slices: readonly Slice[],
  weights: DivisionWeights,
): Promise<number> => {
  const goal: string[] = [];
  const rules: string[] = [];
  const binaries: string[] = [];
  const ways = slices.map(waysToGive);
  const way = (bar: number, index: number): string => `w${bar}_${index}`;
  for (const [bar, list] of ways.entries()) {
    rules.push(`${list.map((_, i) => way(bar, i)).join(' + ')} = 1`);
    for (const [i, players] of list.entries()) {
      binaries.push(way(bar, i));
      const cost = ownCost(slices[bar]!, players, weights);
      if (cost > 0) goal.push(`${cost} ${way(bar, i)}`);
    }
  }
  const stands = (player: number, letter: string, moment: string, position: number): string =>
    `p${player}${letter}${moment}_${position + 1}`;
  for (const player of [1, 2] as const) {
    for (const letter of LETTERS_USED) {
      let before: string | null = null;
      for (const [bar, slice] of slices.entries()) {
        for (const at of [0, 1, 2, 3]) {
          const moment = `b${bar}t${at}`;
          const here = [-1, 0, 1].map((position) => stands(player, letter, moment, position));
          binaries.push(...here);
          rules.push(`${here.join(' + ')} = 1`);
          for (const position of [-1, 0, 1]) {
            const asking = ways[bar]!.flatMap((players, i) => {
              const own = slice.strands.filter((_, s) => players[s] === player || players[s] === 'both');
              const wanted = new Set(positionsAt(own, letter, at));
              return wanted.size === 1 && wanted.has(position) ? [way(bar, i)] : [];
            });
            if (asking.length > 0) rules.push(`${here[position + 1]} - ${asking.join(' - ')} >= 0`);
          }
          if (before !== null) {
            const move = `m${player}${letter}${moment}`;
            binaries.push(move);
            goal.push(`${weights.move} ${move}`);
            for (const position of [-1, 0, 1]) {
              const stood = stands(player, letter, before, position);
              rules.push(`${move} - ${here[position + 1]} + ${stood} >= 0`);
            }
          }
          before = moment;
        }
      }
    }
  }
  for (const [bar, slice] of slices.entries()) {
    const last = slices[bar - 1];
    if (last === undefined || last.bar !== slice.bar - 1) continue;
    for (const voice of ['0', '1', '2']) {
      const change = `h${bar}_${voice}`;
      let isUsed = false;
      for (const who of [1, 2, 'both', 'split'] as const) {
        const had = ways[bar - 1]!.flatMap((players, i) =>
          voiceOf(last, players, voice) === who ? [way(bar - 1, i)] : [],
        );
        const others = ways[bar]!.flatMap((players, i) => {
          const has = voiceOf(slice, players, voice);
          return has !== undefined && has !== who ? [way(bar, i)] : [];
        });
        if (had.length === 0 || others.length === 0) continue;
        isUsed = true;
        rules.push(`${change} - ${had.join(' - ')} - ${others.join(' - ')} >= -1`);
      }
      if (!isUsed) continue;
      binaries.push(change);
      goal.push(`${slice.inPhrase ? weights.handOverInPhrase : weights.handOver} ${change}`);
    }
  }
  return solveProgramme({ goal, rules, binaries });
};
