import type { Logger } from 'pino';
import { isZip } from '../../engine/index.ts';
import type { Metrics } from '../metrics.ts';
import type { Settings } from '../settings.ts';
import type { AnnotateJob, ComputeJob, Perform } from './job.ts';
import { computingCost, drawingCost } from './job-cost.ts';
import { createPool, type Pool, type PoolSettings, type PoolWatch } from './worker-pool.ts';

/** The service's threads, by what they do. */
export interface Pools {
  readonly drawing: Pool<AnnotateJob>;
  readonly computing: Pool<ComputeJob>;
  /** Of the computing, that which takes long: nothing quick waits behind it. */
  readonly long: Pool<ComputeJob>;
}

/** The dearest job that is quick, in milliseconds: an ordinary part of a few pages. */
const QUICK_MS = 600;

/** The dearest that still does not hold up others for long: a long part. */
const MIDDLING_MS = 5_000;

/** Any but the dearest jobs are taken here as well as there, so that these never hold all threads. */
const SHARED = [MIDDLING_MS, Number.POSITIVE_INFINITY];

/** Plans take milliseconds, so that many may wait. */
const COMPUTING_QUEUE = 64;

/** Beside this file once built: threads are run from the bundles alone. */
const fileOf = (worker: string): string => new URL(`./${worker}.js`, import.meta.url).href;

/** One drawing thread of several is kept from the dearest scores. */
const drawingCeilings = (threads: number): readonly number[] =>
  Array.from({ length: threads }, (_, index) =>
    threads > 1 && index === 0 ? MIDDLING_MS : Number.POSITIVE_INFINITY,
  );

export const startPools = (settings: Settings, metrics: Metrics, log: Logger): Pools => {
  const watch = (pool: string): PoolWatch => ({
    onWork: (seconds) => metrics.observeStages(pool, seconds),
    onRestart: () => metrics.countRestart(pool),
    onIdleFailure: (err) => log.error({ pool, err }, 'a thread failed between jobs'),
  });
  const start = <Job extends object>(
    own: Pick<PoolSettings<Job>, 'name' | 'workerFile' | 'helps' | 'ceilings' | 'costOf' | 'queue'>,
  ): Pool<Job> => {
    const limits = { timeLimitMs: settings.TIME_LIMIT_SECONDS * 1000, heapLimitMb: settings.HEAP_LIMIT_MB };
    const pool = createPool<Job>({ ...own, ...limits, spares: 1 }, watch(own.name));
    metrics.watchPool(own.name, pool.state);
    return pool;
  };
  return {
    drawing: start({
      name: 'drawing',
      workerFile: fileOf('drawing-worker'),
      helps: true,
      ceilings: drawingCeilings(settings.THREADS),
      costOf: drawingCost,
      queue: settings.QUEUE,
    }),
    computing: start({
      name: 'computing',
      workerFile: fileOf('compute-worker'),
      helps: false,
      ceilings: [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY],
      costOf: computingCost,
      queue: COMPUTING_QUEUE,
    }),
    long: start({
      name: 'long',
      workerFile: fileOf('long-worker'),
      helps: false,
      ceilings: SHARED,
      costOf: computingCost,
      queue: settings.QUEUE,
    }),
  };
};

/** A job about one score file. */
type ScoreJob = Extract<ComputeJob, { readonly kind: (typeof OF_SCORES)[number] }>;

const OF_SCORES = ['plan', 'proof', 'mark', 'compare', 'tunes', 'fixes', 'divide', 'setting-at-bar'] as const;

const isOfScore = (job: ComputeJob): job is ScoreJob => OF_SCORES.some((kind) => kind === job.kind);

/** A job about a compressed score. */
const isPacked = (job: ComputeJob): job is ScoreJob => isOfScore(job) && isZip(job.bytes);

/** Has a job computed by the threads that it belongs to; what a compressed score costs is seen unpacked. */
export const computeIn = (pools: Pools, how: 'perform' | 'performUnlimited'): Perform<ComputeJob> => {
  const perform: Perform<ComputeJob> = (job, ...rest) =>
    (computingCost(job) > QUICK_MS ? pools.long : pools.computing)[how](job, ...rest);
  return async (job, signal, tell) => {
    if (!isPacked(job)) return perform(job, signal, tell);
    const unpacked = await perform({ kind: 'unpack-score', bytes: job.bytes }, signal);
    return unpacked.ok ? perform({ ...job, bytes: unpacked.value.body }, signal, tell) : unpacked;
  };
};

/** How long the threads may take to start. */
const START_LIMIT_MS = 30_000;

/** @throws Error where no threads come up: a service that could only fail is not started. */
export const awaitThreads = async ({ drawing, computing, long }: Pools): Promise<void> => {
  const file = { bytes: new Uint8Array(), fileName: '' };
  const limit = AbortSignal.timeout(START_LIMIT_MS);
  const outcomes = await Promise.all([
    drawing.perform({ ...file, choice: {}, format: { kind: 'report', withPages: false } }, limit),
    computing.perform({ kind: 'plan', ...file, choice: {} }, limit),
    long.perform({ kind: 'compare', ...file, choice: {} }, limit),
  ]);
  if (outcomes.some((outcome) => outcome.ok || outcome.problem.code !== 'empty-input')) {
    throw new Error('the threads do not start');
  }
};

export const closePools = async ({ drawing, computing, long }: Pools): Promise<void> => {
  await Promise.all([drawing.close(), computing.close(), long.close()]);
};
