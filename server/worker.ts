import { move, transferableSymbol, valueSymbol } from 'piscina';
import type { Result } from '../engine/problem.ts';
import { type Annotator, createAnnotator } from '../render/annotate.ts';
import type { Annotation } from '../render/annotation.ts';
import type { AnnotateJob } from './annotate-job.ts';

/** Made when the thread starts, so that the first score need not wait for it. */
let annotator: Promise<Annotator> = createAnnotator();
annotator.catch(() => {});

/** Hands the PDF over to the main thread without another copy, where its buffer holds nothing else. */
const handOver = (result: Result<Annotation>): unknown => {
  const pdf = result.ok ? result.value.pdf : null;
  if (pdf === null || pdf.byteLength !== pdf.buffer.byteLength) return result;
  return move({ [transferableSymbol]: [pdf.buffer], [valueSymbol]: result } as never);
};

/** The job of the pool's threads. */
export const annotate = async (job: AnnotateJob): Promise<unknown> => {
  try {
    return handOver(await (await annotator).annotate(job.bytes, job.options, job.form));
  } catch (error) {
    // A renderer that threw may be left in any state: the next score gets a new one.
    annotator = createAnnotator();
    annotator.catch(() => {});
    throw error;
  }
};
