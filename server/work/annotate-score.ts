import { checkDrawingLimits } from '../../engine/score/drawing-limits.ts';
import type { Annotator } from '../../render/annotate.ts';
import type { Annotation } from '../../render/annotation.ts';
import { completeEngraving } from '../../render/engraving-options.ts';
import { chooseMarkings } from '../../render/markings.ts';
import type { SourceKind } from '../../render/source/annotate-file.ts';
import { annotateSource } from '../../render/source/annotate-source.ts';
import { type AnnotateChoice, engravingOf } from '../api/options.ts';
import type { Outcome } from '../service-problem.ts';
import { type PlannedScore, planScore } from './plan-score.ts';
import { type SourceFile, writeSourceFile } from './source-file.ts';
import type { StageClock } from './stage-clock.ts';

/** What an annotated score is wanted as. */
export type Target =
  | { readonly kind: 'pdf' | 'svg' | 'plan' }
  | { readonly kind: 'source'; readonly kinds: readonly SourceKind[] };

/** An annotated score; `source` holds the user's own file with markings in it, where that was wanted. */
export interface Annotated {
  readonly annotation: Annotation;
  readonly source: SourceFile | null;
}

/**
 * Annotates a score: reads, plans, and draws pages or writes markings into the user's own file.
 *
 * @returns the annotated score, or the problem that keeps it from being made
 */
export const annotateScore = (
  bytes: Uint8Array,
  choice: AnnotateChoice,
  target: Target,
  annotator: Pick<Annotator, 'engrave'>,
  clock: StageClock,
): Outcome<Annotated> => {
  const planned = planScore(bytes, choice, clock);
  if (!planned.ok) return planned;
  const { score, plan } = planned.value;
  const drawn = target.kind === 'pdf' || target.kind === 'svg';
  if (drawn) {
    const drawable = checkDrawingLimits(score);
    if (!drawable.ok) return drawable;
    clock.begin('engrave', score.bars.length);
  }
  const annotation = annotator.engrave(score, plan, engravingOf(choice), drawn ? target.kind : 'plan');
  if (!annotation.ok) return annotation;
  if (target.kind !== 'source') return { ok: true, value: { annotation: annotation.value, source: null } };
  clock.begin('write', score.bars.length);
  const source = markSource(planned.value, bytes, choice, target.kinds);
  return source.ok ? { ok: true, value: { annotation: annotation.value, source: source.value } } : source;
};

/** Respelled notes are written as such only where the user left the spelling free. */
const markSource = (
  { score, plan }: PlannedScore,
  bytes: Uint8Array,
  choice: AnnotateChoice,
  kinds: readonly SourceKind[],
): Outcome<SourceFile> => {
  const engraving = completeEngraving(engravingOf(choice));
  const marked = annotateSource(score, chooseMarkings(score, plan, engraving), {
    others: engraving.fileMarkings ? 'keep' : 'replace',
    ...(choice.spelling === 'free' ? { respellings: plan.respellings } : {}),
  });
  return marked.ok ? writeSourceFile(score, bytes, marked.value.bytes, kinds) : marked;
};
