import { type HarpOptions, planPart } from '../../engine/plan-part.ts';
import type { Result } from '../../engine/problem.ts';
import { openScore } from '../../engine/score/open.ts';
import type { Annotator } from '../../render/annotate.ts';
import type { AnnotateForm, Annotation } from '../../render/annotation.ts';
import type { EngravingChoice } from '../../render/engraving-options.ts';
import { withoutOwnMarkings } from '../../render/source/our-markings.ts';

export interface ScoreChoice {
  /** The part to annotate, by id or name; without it the harp is looked for. */
  readonly part?: string;
  /** The movement to read, of several. */
  readonly movement?: string;
}

/** Reads, plans and engraves a score file, with the options of the engine and the renderer themselves. */
export const annotateBytes = async (
  annotator: Annotator,
  bytes: Uint8Array,
  options: ScoreChoice & HarpOptions & { readonly engraving?: EngravingChoice },
  form: AnnotateForm,
): Promise<Result<Annotation>> => {
  const opened = openScore(bytes, {
    ...(options.part === undefined ? {} : { part: options.part }),
    ...(options.movement === undefined ? {} : { movement: options.movement }),
  });
  if (!opened.ok) return opened;
  const score = withoutOwnMarkings(opened.value);
  return annotator.engrave(score, planPart(score, options), options.engraving, form);
};
