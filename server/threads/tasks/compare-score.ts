import {
  COMPARE_CATALOGUE,
  CONCERT_HARP,
  compareHarps,
  comparePedalKeys,
  completeChoice,
  DEFAULT_COMPARE_OPTIONS,
  LEVER_HARP,
  leverOptionsFor,
  nameKey,
  pedalOptionsFor,
  readMode,
} from '../../../engine/index.ts';
import { withoutOwnMarkings } from '../../../render/pure.ts';
import type { CompareChoice, CompareReport } from '../../api/answers/comparison.ts';
import { reportRemark } from '../../reports/report-notes.ts';
import { reportScore } from '../../reports/report-score.ts';
import type { Outcome } from '../../service-problem.ts';
import type { ScoreFile } from '../job.ts';
import { atSavedTimes, harpFor, openFile } from './plan-score.ts';
import type { StageClock } from './stage-clock.ts';

/** How a part goes on a pedal harp and on a lever harp, and in which other keys it suits either better. */
export const compareScore = async (
  file: ScoreFile,
  choice: CompareChoice,
  clock: StageClock,
): Promise<Outcome<CompareReport>> => {
  clock.begin('read', null);
  const opened = await openFile(file, choice);
  if (!opened.ok) return opened;
  const score = atSavedTimes(withoutOwnMarkings(opened.value));
  clock.begin('plan', score.bars.length);
  const { profile } = harpFor(choice, score);
  const { maxSemitones } = completeChoice(COMPARE_CATALOGUE, choice, profile.kind);
  const pedal = { ...pedalOptionsFor(choice), profile: profile.kind === 'pedal' ? profile : CONCERT_HARP };
  const compared = compareHarps(score, {
    ...DEFAULT_COMPARE_OPTIONS,
    maxSemitones,
    pedal,
    lever: { ...leverOptionsFor(choice), profile: profile.kind === 'lever' ? profile : LEVER_HARP },
  });
  const mode = readMode(score);
  const named = <Key extends { readonly keyFifths: number }>(key: Key) => ({
    ...key,
    keyName: nameKey(key.keyFifths, mode),
  });
  return {
    ok: true,
    value: {
      ...reportScore(score),
      ...compared,
      keyName: nameKey(score.bars[0]?.keyFifths ?? 0, mode),
      transpositions: compared.transpositions.map(named),
      considered: compared.considered.map(named),
      pedalKeys: comparePedalKeys(score, pedal, maxSemitones).map(named),
      remarks: score.remarks.map(reportRemark),
    },
  };
};
