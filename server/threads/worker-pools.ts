import type { Logger } from 'pino';
import type { Metrics } from '../metrics.ts';
import type { Settings } from '../settings.ts';
import type { AnnotateJob, ComputeJob, Perform } from './job.ts';
import { createPool, type Pool, type PoolSettings, type PoolWatch } from './worker-pool.ts';

/** The service's threads, by what they do. */
export interface Pools {
  readonly drawing: Pool<AnnotateJob>;
  readonly computing: Pool<ComputeJob>;
  /** Of the computing, that which may take long: nothing quick waits behind it. */
  readonly comparing: Pool<ComputeJob>;
}

/** Threads without a layout engine: two, so that a small plan need not wait for a large one. */
const COMPUTING_THREADS = 2;

/** Plans take milliseconds, so that many may wait. */
const COMPUTING_QUEUE = 64;

const COMPUTE_WORKER = new URL('./compute-worker.js', import.meta.url).href;

export const startPools = (settings: Settings, metrics: Metrics, log: Logger): Pools => {
  const watch = (pool: string): PoolWatch => ({
    onWork: (seconds) => metrics.observeStages(pool, seconds),
    onRestart: () => metrics.countRestart(pool),
    onIdleFailure: (err) => log.error({ pool, err }, 'a thread failed between jobs'),
  });
  const start = <Job extends object>(
    own: Pick<PoolSettings, 'name' | 'workerFile' | 'threads' | 'queue'>,
  ): Pool<Job> => {
    const limits = { timeLimitMs: settings.TIME_LIMIT_SECONDS * 1000, heapLimitMb: settings.HEAP_LIMIT_MB };
    const pool = createPool<Job>({ ...own, ...limits, spares: 1 }, watch(own.name));
    metrics.watchPool(own.name, pool.state);
    return pool;
  };
  return {
    drawing: start({
      name: 'drawing',
      workerFile: new URL('./drawing-worker.js', import.meta.url).href,
      threads: settings.THREADS,
      queue: settings.QUEUE,
    }),
    computing: start({
      name: 'computing',
      workerFile: COMPUTE_WORKER,
      threads: COMPUTING_THREADS,
      queue: COMPUTING_QUEUE,
    }),
    comparing: start({ name: 'comparing', workerFile: COMPUTE_WORKER, threads: 1, queue: settings.QUEUE }),
  };
};

/** Has a job computed by the threads that it belongs to. */
export const computeIn =
  (pools: Pools, how: 'perform' | 'performUnlimited'): Perform<ComputeJob> =>
  (job, ...rest) =>
    (job.kind === 'compare' ? pools.comparing : pools.computing)[how](job, ...rest);

/** How long the threads may take to start. */
const START_LIMIT_MS = 30_000;

/** @throws Error where no threads come up: a service that could only fail is not started. */
export const awaitThreads = async ({ drawing, computing, comparing }: Pools): Promise<void> => {
  const bytes = new Uint8Array();
  const limit = AbortSignal.timeout(START_LIMIT_MS);
  const outcomes = await Promise.all([
    drawing.perform({ bytes, choice: {}, format: { kind: 'report', withPages: false } }, limit),
    computing.perform({ kind: 'plan', bytes, choice: {} }, limit),
    comparing.perform({ kind: 'compare', bytes, choice: {} }, limit),
  ]);
  if (outcomes.some((outcome) => outcome.ok || outcome.problem.code !== 'empty-input')) {
    throw new Error('the threads do not start');
  }
};

export const closePools = async ({ drawing, computing, comparing }: Pools): Promise<void> => {
  await Promise.all([drawing.close(), computing.close(), comparing.close()]);
};
