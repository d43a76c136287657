import { compareHarps, DEFAULT_COMPARE_OPTIONS } from '../../engine/compare/compare.ts';
import { CONCERT_HARP } from '../../engine/harp/profiles/concert-harp.ts';
import { LEVER_HARP } from '../../engine/harp/profiles/lever-harp-34.ts';
import { DEFAULT_OPTIONS } from '../../engine/pedals/options.ts';
import { openScore } from '../../engine/score/open.ts';
import { withoutOwnMarkings } from '../../render/source/own-markings.ts';
import type { CompareChoice, CompareReport } from '../api/comparison.ts';
import { leverOptionsFor } from '../api/lever-options.ts';
import type { Outcome } from '../service-problem.ts';
import { harpFor, partOf } from './plan-score.ts';
import type { StageClock } from './stage-clock.ts';

const NOTHING_CHOSEN = { respelled: new Map(), leftOut: new Set<string>() };

/** How a part goes on a pedal harp and on a lever harp, and in which other keys it suits the lever harp better. */
export const compareScore = (
  bytes: Uint8Array,
  choice: CompareChoice,
  clock: StageClock,
): Outcome<CompareReport> => {
  clock.begin('read', null);
  const opened = openScore(bytes, partOf(choice));
  if (!opened.ok) return opened;
  const score = withoutOwnMarkings(opened.value);
  clock.begin('plan', score.bars.length);
  const { profile } = harpFor(choice, score);
  const { weights } = DEFAULT_OPTIONS;
  const compared = compareHarps(score, {
    ...DEFAULT_COMPARE_OPTIONS,
    ...(choice.farthest === undefined ? {} : { farthest: choice.farthest }),
    pedal: {
      ...DEFAULT_OPTIONS,
      profile: profile.kind === 'pedal' ? profile : CONCERT_HARP,
      weights: { ...weights, footRestSeconds: choice.footRest ?? weights.footRestSeconds },
    },
    lever: leverOptionsFor(choice, profile.kind === 'lever' ? profile : LEVER_HARP, NOTHING_CHOSEN),
  });
  return {
    ok: true,
    value: {
      ...score.titles,
      part: { ids: score.harp.partIds, name: score.harp.name },
      parts: score.parts,
      bars: score.bars.length,
      ...compared,
      remarks: score.remarks,
    },
  };
};
