import { groups } from 'd3-array';
import { describe, expect, it } from 'vitest';
import { planPedals } from '../../engine/pedals/plan.ts';
import { openScore } from '../../engine/score/open.ts';
import { likenessOf } from '../../server/page/client/findings/like-findings.ts';
import { breaksOfLaw, firstFixes } from '../engine/pedals/fix-law.ts';
import { oneIn } from '../thorough.ts';
import { hasScores, readScoreFile, SMALLER_HARP_SCORES } from './harp-scores.ts';

/** Each fix alone costs a plan: of a part with more, the first so many are tried. */
const MOST_ALONE = 4;

describe.skipIf(!hasScores)(
  'fixes that are offered for real parts (skipped where the scores are absent)',
  () => {
    it.each(oneIn(2, SMALLER_HARP_SCORES))('agree with each other in $file', ({ file, part }) => {
      const opened = openScore(readScoreFile(file), part === undefined ? {} : { part });
      if (!opened.ok) throw new Error(opened.problem.code);
      const plan = planPedals(opened.value);
      const firsts = firstFixes(plan);
      expect(breaksOfLaw(opened.value, plan, firsts)).toEqual([]);
      for (const [, alike] of groups(firsts, ({ finding }) => likenessOf(finding))) {
        if (alike.length < 2) continue;
        expect(breaksOfLaw(opened.value, plan, alike)).toEqual([]);
      }
      for (const choice of firsts.slice(0, MOST_ALONE)) {
        expect(breaksOfLaw(opened.value, plan, [choice])).toEqual([]);
      }
    });
  },
);
