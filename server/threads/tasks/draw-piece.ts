import { checkDrawingLimits } from '../../../engine/index.ts';
import type { Annotator, ClassPiece } from '../../../render/index.ts';
import type { AnnotateChoice } from '../../api/requests/options.ts';
import type { Outcome } from '../../service-problem.ts';
import type { ScoreFile } from '../job.ts';
import { engravingFor } from './annotate/annotated.ts';
import { planScore } from './plan-score.ts';
import type { StageClock } from './stage-clock.ts';

/**
 * Draws a piece for a class set: reads, plans and lays out.
 *
 * @returns its pages, or the problem that keeps them from being made
 */
export const drawPiece = async (
  file: ScoreFile,
  choice: AnnotateChoice,
  annotator: Pick<Annotator, 'engravePiece'>,
  clock: StageClock,
): Promise<Outcome<ClassPiece>> => {
  const planned = await planScore(file, choice, clock);
  if (!planned.ok) return planned;
  const { score, plan } = planned.value;
  const drawable = checkDrawingLimits(score);
  if (!drawable.ok) return drawable;
  clock.begin('engrave', score.bars.length);
  return annotator.engravePiece(score, plan, engravingFor(choice, planned.value));
};
