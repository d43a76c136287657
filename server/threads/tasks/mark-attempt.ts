import { judgeAttempt, pedalOptionsFor, planPedals } from '../../../engine/index.ts';
import type { MarkedLook, ProofPages } from '../../../render/index.ts';
import { ENGRAVING_CATALOGUE, ownMarksAt } from '../../../render/pure.ts';
import type { AttemptReport } from '../../api/answers/attempt-report.ts';
import type { MarkChoice } from '../../api/requests/options.ts';
import { reportAttempt } from '../../reports/report-attempt.ts';
import { fail, type Outcome } from '../../service-problem.ts';
import type { ScoreFile } from '../job.ts';
import { atSavedTempos, harpFor, openFile } from './plan-score.ts';
import type { StageClock } from './stage-clock.ts';
import { tryDrawing } from './try-drawing.ts';

/** A pupil's attempt, judged. */
export interface MarkedAttempt {
  readonly report: AttemptReport;
  readonly title: string;
  /** The part with a sign at each change; null where no pages are asked for. */
  readonly drawn: ProofPages | null;
}

/** Judges the pedal markings that a pupil has written into a score, and draws the marked part where pages are asked for. */
export const markAttempt = async (
  file: ScoreFile,
  choice: MarkChoice,
  clock: StageClock,
  form: 'report' | 'pdf' | 'svg',
): Promise<Outcome<MarkedAttempt>> => {
  clock.begin('read', null);
  const opened = await openFile(file, choice);
  if (!opened.ok) return opened;
  const score = atSavedTempos(opened.value);
  clock.begin('plan', score.bars.length);
  const { profile } = harpFor(choice, score);
  if (profile.kind === 'lever') {
    return fail({
      code: 'unsupported',
      feature: `Marking an attempt for the ${profile.name}`,
      advice: 'Only pedal markings can be marked. Choose a pedal harp with the option instrument.',
    });
  }
  const options = pedalOptionsFor(choice);
  const marksAt = choice.marksAt ?? ownMarksAt(score) ?? ENGRAVING_CATALOGUE.marksAt.default;
  const attempt = judgeAttempt(score, { profile, weights: options.weights, marksAt }, (unmarked) =>
    planPedals(unmarked, { ...options, profile }),
  );
  const { completeEngraving, drawAttempt, tellJudged } = await import('../../../render/index.ts');
  const look = lookOf(choice);
  const told = completeEngraving(look);
  const report = reportAttempt(score, attempt, (change) => tellJudged(score, change, told));
  const marked = { report, title: score.titles.title, drawn: null };
  if (form === 'report') return { ok: true, value: marked };
  clock.begin('engrave', score.bars.length);
  const drawn = await tryDrawing(() => drawAttempt(score, attempt, look, form));
  return drawn.ok ? { ok: true, value: { ...marked, drawn: drawn.value } } : drawn;
};

const lookOf = ({ naming, language, paper, staffMm, points }: MarkChoice): MarkedLook => ({
  ...(naming === undefined ? {} : { naming }),
  ...(language === undefined ? {} : { language }),
  ...(paper === undefined ? {} : { paper }),
  ...(staffMm === undefined ? {} : { staffMm }),
  points: points ?? false,
});
