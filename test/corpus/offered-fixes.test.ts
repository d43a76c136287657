import { describe, expect, it } from 'vitest';
import type { Plan } from '../../engine/pedals/model.ts';
import { listFixes } from '../../engine/pedals/offers/list-fixes.ts';
import { DEFAULT_PLAN_OPTIONS } from '../../engine/pedals/options.ts';
import { planPedals } from '../../engine/pedals/plan.ts';
import { openScore } from '../../engine/score/open.ts';
import { asDecided } from '../engine/pedals/fix-law.ts';
import { HARP_SCORES, hasScores, readScoreFile } from './harp-scores.ts';

const stopsOf = ({ findings }: Plan): readonly string[] =>
  findings
    .filter(({ severity }) => severity === 'stop')
    .flatMap(({ code, places }) => places.map(({ notes }) => `${code} ${notes.join(' ')}`));

/** Each costs a whole plan with its findings: of a part with more, the first of so many places are tried. */
const MOST_PLACES = 2;

/** A part with many places is planned many times over. */
const LIMIT_MS = 180_000;

describe.skipIf(!hasScores)('every fix offered for real parts (skipped where the scores are absent)', () => {
  it.each(HARP_SCORES)(
    'removes its finding and adds no place that cannot be played, in $file',
    ({ file, part }) => {
      const opened = openScore(readScoreFile(file), part === undefined ? {} : { part });
      if (!opened.ok) throw new Error(opened.problem.code);
      const score = opened.value;
      const before = stopsOf(planPedals(score));
      const { places, untried } = listFixes(score, DEFAULT_PLAN_OPTIONS, MOST_PLACES);
      expect(places.map(({ code, notes }) => `${code} ${notes.join(' ')}`)).toEqual(
        before.slice(0, MOST_PLACES),
      );
      expect(untried).toBe(before.length - places.length);
      for (const { code, notes, offers } of places) {
        for (const { kind, changes } of offers) {
          if (kind === 'tempo') continue;
          const after = stopsOf(planPedals(score, { ...DEFAULT_PLAN_OPTIONS, ...asDecided(score, changes) }));
          expect(after).not.toContain(`${code} ${notes.join(' ')}`);
          expect(after.filter((each) => !before.includes(each))).toEqual([]);
        }
      }
    },
    LIMIT_MS,
  );
});
