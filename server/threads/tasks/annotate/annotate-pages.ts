import { checkDrawingLimits, type Score } from '../../../../engine/index.ts';
import type { Annotator, PagedAnnotation, ReadyPage } from '../../../../render/index.ts';
import type { AnnotateChoice } from '../../../api/requests/options.ts';
import type { Outcome } from '../../../service-problem.ts';
import type { ScoreFile } from '../../job.ts';
import { planScore } from '../plan-score.ts';
import type { StageClock } from '../stage-clock.ts';
import { engravingFor } from './annotated.ts';

/** A score whose pages were told one by one. */
export interface AnnotatedPages {
  readonly annotation: PagedAnnotation;
  /** The score as it was planned. */
  readonly score: Score;
}

/**
 * Annotates a score and tells its pages as they are ready; of each number the last counts.
 *
 * @returns what is to be said of all of them, or the problem that keeps them from being made
 */
export const annotatePages = async (
  file: ScoreFile,
  choice: AnnotateChoice,
  annotator: Pick<Annotator, 'engravePageByPage'>,
  clock: StageClock,
  onPage: (page: ReadyPage) => void,
): Promise<Outcome<AnnotatedPages>> => {
  const planned = await planScore(file, choice, clock, 'mei');
  if (!planned.ok) return planned;
  const { score, plan } = planned.value;
  const drawable = checkDrawingLimits(score);
  if (!drawable.ok) return drawable;
  clock.begin('engrave', score.bars.length);
  const drawing = annotator.engravePageByPage(
    score,
    plan,
    engravingFor(choice, planned.value),
    choice.pageOfBar,
  );
  let step = await drawing.next();
  for (; step.done !== true; step = await drawing.next()) onPage(step.value);
  return step.value.ok ? { ok: true, value: { annotation: step.value.value, score } } : step.value;
};
