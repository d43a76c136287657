import type { AnnotateForm, AnnotateOptions, Annotation } from '../render/annotation.ts';
import type { Outcome } from './service-problem.ts';

/** One score to annotate, as handed to a worker. */
export interface AnnotateJob {
  readonly bytes: Uint8Array;
  readonly options: AnnotateOptions;
  readonly form: AnnotateForm;
}

/** Annotates a score; gives up with `cancelled` when the signal fires. */
export type Annotate = (job: AnnotateJob, signal: AbortSignal) => Promise<Outcome<Annotation>>;
