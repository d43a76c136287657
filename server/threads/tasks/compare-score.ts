import {
  COMPARE_CATALOGUE,
  CONCERT_HARP,
  compareHarps,
  completeChoice,
  DEFAULT_COMPARE_OPTIONS,
  LEVER_HARP,
  leverOptionsFor,
  pedalOptionsFor,
} from '../../../engine/index.ts';
import { withoutOwnMarkings } from '../../../render/pure.ts';
import type { CompareChoice, CompareReport } from '../../api/answers/comparison.ts';
import { reportRemark } from '../../reports/report-notes.ts';
import type { Outcome } from '../../service-problem.ts';
import type { ScoreFile } from '../job.ts';
import { harpFor, openFile } from './plan-score.ts';
import type { StageClock } from './stage-clock.ts';

/** How a part goes on a pedal harp and on a lever harp, and in which other keys it suits the lever harp better. */
export const compareScore = async (
  file: ScoreFile,
  choice: CompareChoice,
  clock: StageClock,
): Promise<Outcome<CompareReport>> => {
  clock.begin('read', null);
  const opened = await openFile(file, choice);
  if (!opened.ok) return opened;
  const score = withoutOwnMarkings(opened.value);
  clock.begin('plan', score.bars.length);
  const { profile } = harpFor(choice, score);
  const { maxSemitones } = completeChoice(COMPARE_CATALOGUE, choice, profile.kind);
  const compared = compareHarps(score, {
    ...DEFAULT_COMPARE_OPTIONS,
    maxSemitones,
    pedal: { ...pedalOptionsFor(choice), profile: profile.kind === 'pedal' ? profile : CONCERT_HARP },
    lever: { ...leverOptionsFor(choice), profile: profile.kind === 'lever' ? profile : LEVER_HARP },
  });
  return {
    ok: true,
    value: {
      ...score.titles,
      part: { ids: score.harp.partIds, name: score.harp.name },
      parts: score.parts,
      bars: score.bars.length,
      ...compared,
      remarks: score.remarks.map(reportRemark),
    },
  };
};
