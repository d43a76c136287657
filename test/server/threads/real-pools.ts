import type { AnnotateJob, ComputeJob } from '../../../server/threads/job.ts';
import {
  createPool,
  type Pool,
  type PoolSettings,
  type PoolWatch,
} from '../../../server/threads/worker-pool.ts';

const SILENT: PoolWatch = { onWork: () => {}, onRestart: () => {}, onIdleFailure: () => {} };

interface Jobs {
  readonly 'drawing-worker': AnnotateJob;
  readonly 'compute-worker': ComputeJob;
}

/** Real threads, from the built files: `npm test` builds them first. */
export const startPool = <Kind extends keyof Jobs>(
  kind: Kind,
  changes: Partial<PoolSettings<Jobs[Kind]>> = {},
  watch: Partial<PoolWatch> = {},
): Pool<Jobs[Kind]> =>
  createPool<Jobs[Kind]>(
    {
      name: kind,
      workerFile: new URL(`../../../dist/server/${kind}.js`, import.meta.url).href,
      helps: false,
      ceilings: [Number.POSITIVE_INFINITY],
      costOf: () => 0,
      spares: 0,
      queue: 8,
      timeLimitMs: 60_000,
      heapLimitMb: 1024,
      ...changes,
    },
    { ...SILENT, ...watch },
  );
