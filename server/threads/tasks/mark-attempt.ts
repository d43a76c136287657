import {
  type HarpProfile,
  type JudgedAttempt,
  judgeAttempt,
  judgeLeverAttempt,
  leverOptionsFor,
  pedalOptionsFor,
  planPedals,
  type Score,
} from '../../../engine/index.ts';
import type { MarkedLook, ProofPages } from '../../../render/index.ts';
import { ENGRAVING_CATALOGUE, ownMarksAt } from '../../../render/pure.ts';
import type { AttemptReport } from '../../api/answers/attempt-report.ts';
import { checkHarpOptions } from '../../api/requests/harp-options.ts';
import type { MarkChoice } from '../../api/requests/options.ts';
import { reportAttempt } from '../../reports/report-attempt.ts';
import type { Outcome } from '../../service-problem.ts';
import type { ScoreFile } from '../job.ts';
import { atSavedTimes, harpFor, openFile } from './plan-score.ts';
import { proofLook } from './proof-look.ts';
import type { StageClock } from './stage-clock.ts';
import { tryDrawing } from './try-drawing.ts';

/** A pupil's attempt, judged. */
export interface MarkedAttempt {
  readonly report: AttemptReport;
  readonly title: string;
  /** The part with a sign at each change; null where no pages are asked for. */
  readonly drawn: ProofPages | null;
}

/** Judges the pedal or lever markings that a pupil has written into a score, and draws the marked part where pages are asked for. */
export const markAttempt = async (
  file: ScoreFile,
  choice: MarkChoice,
  clock: StageClock,
  form: 'report' | 'pdf' | 'svg',
): Promise<Outcome<MarkedAttempt>> => {
  clock.begin('read', null);
  const opened = await openFile(file, choice);
  if (!opened.ok) return opened;
  const score = atSavedTimes(opened.value);
  clock.begin('plan', score.bars.length);
  const { profile } = harpFor(choice, score);
  const concerned = checkHarpOptions(choice, profile);
  if (!concerned.ok) return concerned;
  const attempt = judge(score, profile, choice);
  const { completeEngraving, drawAttempt, tellJudged, tellUnread } = await import('../../../render/index.ts');
  const look = lookOf(choice);
  const { language, naming } = completeEngraving(look);
  const telling = { harp: attempt.harp, language, naming };
  const report = reportAttempt(score, attempt, {
    change: (change) => tellJudged(score, change, telling),
    unread: (unread) => tellUnread(score, unread, telling),
  });
  const { title } = score.titles;
  if (form === 'report' && choice.pages !== 'all')
    return { ok: true, value: { report: { ...report, pages: [] }, title, drawn: null } };
  clock.begin('engrave', score.bars.length);
  const drawn = await tryDrawing(() => drawAttempt(score, attempt, look, form === 'pdf' ? 'pdf' : 'svg'));
  if (!drawn.ok) return drawn;
  const { pages } = drawn.value;
  return { ok: true, value: { report: { ...report, pages }, title, drawn: drawn.value } };
};

const judge = (score: Score, profile: HarpProfile, choice: MarkChoice): JudgedAttempt => {
  if (profile.kind === 'lever') return judgeLeverAttempt(score, { ...leverOptionsFor(choice), profile });
  const options = pedalOptionsFor(choice);
  const marksAt = choice.marksAt ?? ownMarksAt(score) ?? ENGRAVING_CATALOGUE.marksAt.default;
  return judgeAttempt(score, { profile, weights: options.weights, marksAt }, (unmarked) =>
    planPedals(unmarked, { ...options, profile }),
  );
};

const lookOf = (choice: MarkChoice): MarkedLook => ({
  ...proofLook(choice),
  points: choice.points ?? false,
});
