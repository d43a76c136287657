import type { Plan } from '../../../engine/pedals/model.ts';
import { DEFAULT_PLAN_OPTIONS } from '../../../engine/pedals/options.ts';
import { planPedals } from '../../../engine/pedals/plan.ts';
import type { HarpOptions } from '../../../engine/plan-part.ts';
import { ok, type Result } from '../../../engine/problem.ts';
import type { Score } from '../../../engine/score/model/score.ts';
import { openScore } from '../../../engine/score/open.ts';
import { chooseMarkings, type Marking } from '../../../render/markings/markings.ts';
import { annotateSource, type SourceChoice } from '../../../render/source/annotate-source.ts';
import { withoutOwnMarkings } from '../../../render/source/our-markings.ts';
import { repackScore } from '../../../render/source/repack.ts';
import { type SourceKind, sourceKindOf } from '../../../render/source/source-kind.ts';
import type { ScoreChoice } from '../annotate-bytes.ts';

/** A score file with markings in it, and what was worked out. */
export interface AnnotatedFile {
  readonly bytes: Uint8Array;
  readonly kind: SourceKind;
  /** The score as it was read, markings by others included and ours of an earlier time left out. */
  readonly score: Score;
  readonly plan: Plan;
  readonly markings: readonly Marking[];
}

/**
 * Annotates a score file: MusicXML, compressed MusicXML or MEI in, the same out with insertions only.
 *
 * Planned from the notes: markings of ours that the file already holds are replaced and never planned by.
 *
 * @returns the file, or the problem that keeps it from being read or written
 */
export const annotateFile = (
  bytes: Uint8Array,
  options: ScoreChoice & Pick<HarpOptions, 'plan'> & SourceChoice,
): Result<AnnotatedFile> => {
  const opened = openScore(bytes, options.part === undefined ? {} : { part: options.part });
  if (!opened.ok) return opened;
  const score = withoutOwnMarkings(opened.value);
  const plan = planPedals(score, { ...DEFAULT_PLAN_OPTIONS, ...options.plan });
  const markings = chooseMarkings(score, plan);
  const annotated = annotateSource(score, markings, options);
  if (!annotated.ok) return annotated;
  const { archivePath } = score.source;
  const packed = repackScore(bytes, archivePath, annotated.value.bytes);
  return packed.ok ? ok({ bytes: packed.value, kind: sourceKindOf(score), score, plan, markings }) : packed;
};
