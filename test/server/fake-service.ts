import type express from 'express';
import type { Annotation } from '../../render/annotation.ts';
import type { AppDependencies } from '../../server/app.ts';
import { createApp } from '../../server/app.ts';
import { composeReply, type SentFormat } from '../../server/http/reply.ts';
import { createUploadBudget } from '../../server/http/upload-budget.ts';
import type { BlobStore } from '../../server/jobs/job.ts';
import { LocalQueue } from '../../server/jobs/local-queue.ts';
import { createLog } from '../../server/log.ts';
import { createMetrics } from '../../server/metrics.ts';
import type { Outcome } from '../../server/service-problem.ts';
import type { AnnotateJob, ComputeJob, Perform, Reply } from '../../server/threads/job.ts';
import type { SourceFile } from '../../server/threads/tasks/source-file.ts';
import { smallPart } from '../part-builder.ts';

/** Keeps bytes in memory. */
export const memoryStore = (): BlobStore & { readonly kept: Map<string, Uint8Array> } => {
  const kept = new Map<string, Uint8Array>();
  return {
    kept,
    put: async (key, bytes) => {
      kept.set(key, bytes);
      return { ok: true, value: null };
    },
    get: async (key) => kept.get(key) ?? null,
    remove: async (keys) => {
      for (const key of keys) kept.delete(key);
    },
  };
};

/** It has the notes of which the sample of an annotation speaks. */
const SCORE = ((score) => ({
  ...score,
  notes: ['n7', 'n12'].flatMap((id) => score.notes.map((note) => ({ ...note, id }))),
}))(smallPart({ upper: 'Fbb4/4' }));

/** A performer that answers as an annotation would be answered, without annotating. */
export const annotating =
  (
    answer: (job: AnnotateJob) => Outcome<Annotation> | Promise<Outcome<Annotation>>,
    source: SourceFile | null = null,
  ): Perform<AnnotateJob> =>
  async (job): Promise<Outcome<Reply>> => {
    const annotated = await answer(job);
    // Pages are told before the answer: of these there are none here.
    if (annotated.ok && job.format.kind === 'pages') return NOTHING;
    return annotated.ok
      ? composeReply(
          { annotation: annotated.value, score: SCORE, source, others: [] },
          job.format as SentFormat,
        )
      : annotated;
  };

const NOTHING: Outcome<Reply> = {
  ok: true,
  value: { headers: { 'Content-Type': 'application/json' }, body: new TextEncoder().encode('{}') },
};

const nothing: Perform<ComputeJob> = async () => NOTHING;

export interface FakeService {
  readonly app: express.Express;
  /** Lines of the log. */
  readonly logged: string[];
  /** Bugs among them, by the name they were recorded under. */
  readonly bugs: () => readonly string[];
}

/** The service over performers of one's own, everything else as it runs. */
export const fakeService = (
  changes: Partial<AppDependencies> & Pick<AppDependencies, 'annotate'>,
): FakeService => {
  const logged: string[] = [];
  const log = createLog('info', { write: (line) => logged.push(line) });
  const compute = changes.compute ?? nothing;
  const workers = {
    annotate: changes.annotate,
    compute,
    store: memoryStore(),
    mostScores: 10,
    limitMs: 60_000,
    recordBug: () => 'incident',
  };
  const app = createApp({
    compute,
    jobs: new LocalQueue(workers, { concurrency: 1, waiting: 4, keepMs: 60_000 }),
    uploads: createUploadBudget(1_000_000_000),
    uploadLimitBytes: 100_000,
    poolState: () => ({ threads: 2, working: 1, waiting: 0, queue: 16 }),
    listReadinessProblems: async () => [],
    metrics: createMetrics(),
    access: { apiKeys: [], ratePerMinute: 0, trustedProxies: 0 },
    log,
    ...changes,
  });
  const bugs = (): readonly string[] =>
    logged
      .map((line) => JSON.parse(line) as { msg: string; incident?: string })
      .filter(({ msg }) => msg === 'bug')
      .map(({ incident }) => incident ?? '');
  return { app, logged, bugs };
};
