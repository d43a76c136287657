import { group } from 'd3-array';
import { describe, expect, it } from 'vitest';
import type { Plan } from '../../engine/pedals/model.ts';
import { listFixes } from '../../engine/pedals/offers/list-fixes.ts';
import { FIX_KINDS } from '../../engine/pedals/offers/model.ts';
import type { StopPlace } from '../../engine/pedals/offers/place-fixes.ts';
import { DEFAULT_PLAN_OPTIONS } from '../../engine/pedals/options.ts';
import { planPedals } from '../../engine/pedals/plan.ts';
import { openScore } from '../../engine/score/open.ts';
import { planWithFix } from '../engine/pedals/offers/carry-out.ts';
import { isThorough, oneIn } from '../thorough.ts';
import { hasScores, readScoreFile, SMALLER_HARP_SCORES } from './harp-scores.ts';

const troublesOf = ({ findings }: Plan, severity: 'stop' | 'warn'): readonly string[] =>
  findings
    .filter((finding) => finding.severity === severity)
    .flatMap(({ code, places }) => places.map(({ notes }) => `${code} ${notes.join(' ')}`));

const stopsOf = (plan: Plan): readonly string[] => troublesOf(plan, 'stop');

/** Each costs some thirty plans of the part, and one with all its findings for each fix. */
const ALIKE = isThorough ? 8 : 1;

/** Of each kind of finding so many places, evenly over the part: the first, and others as far apart as can be. */
const sample = (all: readonly StopPlace[]): readonly StopPlace[] => {
  const taken = [...group(all, ({ finding }) => finding.code).values()].flatMap((alike) =>
    alike.length <= ALIKE
      ? alike
      : Array.from({ length: ALIKE }, (_, i) => alike[Math.floor((i * alike.length) / ALIKE)]!),
  );
  return all.filter((each) => taken.includes(each));
};

/** A part with many places is planned many times over. */
const LIMIT_MS = isThorough ? 1_800_000 : 180_000;

describe.skipIf(!hasScores)('every fix offered for real parts (skipped where the scores are absent)', () => {
  const offered = new Set<string>();

  it.each(oneIn(2, SMALLER_HARP_SCORES))(
    'removes its finding and adds no place that cannot be played, in $file',
    ({ file, part }) => {
      const opened = openScore(readScoreFile(file), part === undefined ? {} : { part });
      if (!opened.ok) throw new Error(opened.problem.code);
      const score = opened.value;
      const plan = planPedals(score);
      const before = stopsOf(plan);
      const { places, untried } = listFixes(score, DEFAULT_PLAN_OPTIONS, sample);
      const looked = places.map(({ code, notes }) => `${code} ${notes.join(' ')}`);
      expect(before).toEqual(expect.arrayContaining(looked));
      expect(untried).toBe(before.length - places.length);
      for (const { code, notes, offers } of places) {
        for (const offer of offers) {
          offered.add(offer.kind);
          const after = planWithFix(score, offer);
          expect(stopsOf(after)).not.toContain(`${code} ${notes.join(' ')}`);
          expect(stopsOf(after).filter((each) => !before.includes(each))).toEqual([]);
          // What it costs is told as it is.
          expect(after.moves.length - plan.moves.length).toBe(offer.moreMoves);
          expect(troublesOf(after, 'warn').length - troublesOf(plan, 'warn').length).toBe(offer.moreWarnings);
        }
      }
    },
    LIMIT_MS,
  );

  it('are of every kind that there is, on all scores; on some of them, of several', () => {
    const kinds = Object.keys(FIX_KINDS).sort();
    expect([...offered].filter((kind) => !kinds.includes(kind))).toEqual([]);
    expect(offered.size).toBeGreaterThanOrEqual(isThorough ? kinds.length : 4);
  });
});
