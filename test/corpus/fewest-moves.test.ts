import { group } from 'd3-array';
import { describe, expect, it } from 'vitest';
import { midiOf } from '../../engine/music/pitch.ts';
import { toNumber } from '../../engine/music/rational.ts';
import { DEFAULT_PLAN_OPTIONS } from '../../engine/pedals/options.ts';
import { planPedals } from '../../engine/pedals/plan.ts';
import type { Note } from '../../engine/score/model/note.ts';
import type { Score } from '../../engine/score/model/score.ts';
import { openScore } from '../../engine/score/open.ts';
import { oneIn } from '../thorough.ts';
import { hasScores, readScoreFile, SMALLER_HARP_SCORES } from './harp-scores.ts';

const NATURALS = [0, 2, 4, 5, 7, 9, 11];
const SETTINGS = 3 ** NATURALS.length;

/** Of a pedal in one of the 2,187 settings: 0 flat, 1 natural, 2 sharp. */
const notchOf = (setting: number, pedal: number): number => Math.floor(setting / 3 ** pedal) % 3;

/** By pitch class: the settings in which some string gives it. */
const GIVING = Array.from({ length: 12 }, (_, chroma) =>
  Uint8Array.from({ length: SETTINGS }, (_, setting) =>
    NATURALS.some((natural, pedal) => (natural + notchOf(setting, pedal) + 11) % 12 === chroma) ? 1 : 0,
  ),
);

/** The lowest and the highest key of strings that all harps have with a disc. */
const WITH_DISCS = { from: 27, until: 102 };

/** The pitch classes that begin together, in printed order. */
const chordsOf = ({ notes }: Score): readonly ReadonlySet<number>[] => {
  const keyOf = ({ onset, grace }: Note): number =>
    toNumber(onset) + (grace === null ? 0 : (grace.order - 999) * 1e-6);
  const plucked = notes.filter(({ role, tiedFrom }) => role === 'played' && tiedFrom === null);
  return [...group(plucked, keyOf)]
    .sort(([a], [b]) => a - b)
    .map(([, chord]) => {
      const keys = chord.map((note) => midiOf(note.harmonic?.string ?? note.pitch));
      return new Set(
        keys
          .filter((key) => Number.isInteger(key) && key >= WITH_DISCS.from && key <= WITH_DISCS.until)
          .map((key) => key % 12),
      );
    });
};

/** The settings with one pedal flat, by pedal. */
const WITH_FLAT = NATURALS.map((_, pedal) =>
  Array.from({ length: SETTINGS }, (_, setting) => setting).filter(
    (setting) => notchOf(setting, pedal) === 0,
  ),
);

/** What is cheapest once each pedal may have moved by itself, for one each. */
const letMove = (costs: Float64Array): void => {
  for (const [pedal, settings] of WITH_FLAT.entries()) {
    const step = 3 ** pedal;
    for (const flat of settings) {
      const [natural, sharp] = [flat + step, flat + 2 * step];
      const least = Math.min(costs[flat]!, costs[natural]!, costs[sharp]!) + 1;
      costs[flat] = Math.min(costs[flat]!, least);
      costs[natural] = Math.min(costs[natural]!, least);
      costs[sharp] = Math.min(costs[sharp]!, least);
    }
  }
};

/**
 * A number of moves that no plan in any spelling goes below, read straight through: of each chord some string must give every
 * pitch class. It asks less than a plan (no time for feet, no ringing strings), and shares no code with the planner.
 */
const leastMoves = (score: Score): number => {
  const costs = new Float64Array(SETTINGS);
  for (const chord of chordsOf(score)) {
    const allowed = new Uint8Array(SETTINGS).fill(1);
    for (const chroma of chord) {
      const giving = GIVING[chroma]!;
      for (let setting = 0; setting < SETTINGS; setting += 1) allowed[setting]! &= giving[setting]!;
    }
    if (!allowed.includes(1)) continue;
    letMove(costs);
    for (let setting = 0; setting < SETTINGS; setting += 1) {
      if (allowed[setting] === 0) costs[setting] = Number.POSITIVE_INFINITY;
    }
  }
  return costs.reduce((a, b) => Math.min(a, b));
};

/** A part with ornaments whose neighbours have two strings, of which the claim holds nevertheless. */
const CLAIMED = 'openscore-lieder/lc6199572.mxl';

describe.skipIf(!hasScores)(
  'that no plan in any spelling has fewer moves (skipped where the scores are absent)',
  () => {
    it.each(oneIn(2, SMALLER_HARP_SCORES))(
      'is claimed only where a bound of its own agrees, in $file',
      ({ file, part }) => {
        const opened = openScore(readScoreFile(file), part === undefined ? {} : { part });
        if (!opened.ok) throw new Error(opened.problem.code);
        const { moves, minMoves } = planPedals(opened.value, {
          ...DEFAULT_PLAN_OPTIONS,
          spelling: 'free',
        }).summary;
        expect(minMoves).toBeLessThanOrEqual(moves);
        if (minMoves === moves) expect(leastMoves(opened.value)).toBe(moves);
        if (file === CLAIMED) expect({ moves, minMoves }).toEqual({ moves: 95, minMoves: 95 });
      },
    );
  },
);
