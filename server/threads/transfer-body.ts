import { move, transferableSymbol, valueSymbol } from 'piscina';
import type { JobResult } from './job.ts';

/** Hands the body of an answer over to the main thread without another copy, where its buffer holds nothing else. */
export const transferBody = (work: JobResult): unknown => {
  const body = work.outcome.ok ? work.outcome.value.body : null;
  if (body === null || body.byteLength !== body.buffer.byteLength) return work;
  return move({ [transferableSymbol]: [body.buffer], [valueSymbol]: work } as never);
};
