import { checkDrawingLimits } from '../../../../engine/index.ts';
import type { Annotation, Annotator, HarpScore } from '../../../../render/index.ts';
import type { AnnotateChoice } from '../../../api/requests/options.ts';
import type { Outcome } from '../../../service-problem.ts';
import type { PlannedScore } from '../plan-score.ts';
import type { StageClock } from '../stage-clock.ts';
import { engravingFor, type Target } from './annotated.ts';

/** Whether pages are wanted, and in which form. */
export const drawnForm = ({ kind }: Target): 'pdf' | 'svg' | null =>
  kind === 'pdf' || kind === 'svg' ? kind : null;

/** The pages of several parts of one score, or what is told of them where no pages are wanted, one after the other. */
export const engraveParts = async (
  planned: readonly PlannedScore[],
  choice: AnnotateChoice,
  target: Target,
  annotator: Pick<Annotator, 'engrave'>,
  clock: StageClock,
): Promise<Outcome<readonly Annotation[]>> => {
  const form = drawnForm(target);
  if (form !== null) {
    const drawable = checkAllDrawable(planned);
    if (!drawable.ok) return drawable;
    clock.begin('engrave', planned[0]!.score.bars.length);
  }
  const engraved: Annotation[] = [];
  for (const each of planned) {
    const { score, plan } = each;
    const annotation = await annotator.engrave(score, plan, engravingFor(choice, each), form ?? 'plan');
    if (!annotation.ok) return annotation;
    engraved.push(annotation.value);
  }
  return { ok: true, value: engraved };
};

/** The first problem that keeps any of some scores from being drawn. */
export const checkAllDrawable = (planned: readonly Pick<PlannedScore, 'score'>[]): Outcome<null> => {
  for (const { score } of planned) {
    const drawable = checkDrawingLimits(score);
    if (!drawable.ok) return drawable;
  }
  return { ok: true, value: null };
};

/** Several parts of one score under each other. */
export const engraveTogether = (
  planned: readonly PlannedScore[],
  choice: AnnotateChoice,
  form: 'pdf' | 'svg',
  annotator: Pick<Annotator, 'engraveTogether'>,
): Promise<Outcome<HarpScore>> =>
  annotator.engraveTogether(
    planned.map((each) => ({
      score: each.score,
      plan: each.plan,
      choice: { ...engravingFor(choice, each), edition: 'part' },
    })),
    form,
  );
