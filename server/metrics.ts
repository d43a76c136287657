import { Counter, collectDefaultMetrics, Gauge, Histogram, Registry } from 'prom-client';
import type { JobResult } from './threads/job.ts';
import type { PoolState } from './threads/worker-pool.ts';

/** What the service counts and measures, for Prometheus. Labels never hold anything of a score. */
export interface Metrics {
  /** @param route the pattern of the address, not the address itself */
  readonly countRequest: (method: string, route: string, status: number, seconds: number) => void;
  readonly countProblem: (code: string) => void;
  readonly observeStages: (pool: string, seconds: JobResult['seconds']) => void;
  readonly countRestart: (pool: string) => void;
  readonly watchPool: (pool: string, state: () => PoolState) => void;
  readonly watchJobs: (count: () => Promise<{ readonly waiting: number; readonly working: number }>) => void;
  readonly watchUploads: (heldBytes: () => number) => void;
  readonly contentType: string;
  readonly write: () => Promise<string>;
}

const REQUEST_SECONDS = [0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1, 2.5, 5, 10, 30, 60];

export const createMetrics = (): Metrics => {
  const registry = new Registry();
  collectDefaultMetrics({ register: registry });
  return {
    ...measureRequests(registry),
    ...measurePools(registry),
    watchJobs: (count) => watchJobs(registry, count),
    watchUploads: (heldBytes) => watchUploads(registry, heldBytes),
    contentType: registry.contentType,
    write: () => registry.metrics(),
  };
};

const measureRequests = (registry: Registry): Pick<Metrics, 'countRequest' | 'countProblem'> => {
  const registers = [registry];
  const requests = new Histogram({
    name: 'tringle_http_request_seconds',
    help: 'Time from the start of a request to the end of its answer',
    labelNames: ['method', 'route', 'status'],
    buckets: REQUEST_SECONDS,
    registers,
  });
  const problems = new Counter({
    name: 'tringle_problems_total',
    help: 'Error answers, by problem code',
    labelNames: ['code'],
    registers,
  });
  return {
    countRequest: (method, route, status, seconds) =>
      requests.observe({ method, route, status: `${status}` }, seconds),
    countProblem: (code) => problems.inc({ code }),
  };
};

const measurePools = (registry: Registry): Pick<Metrics, 'observeStages' | 'countRestart' | 'watchPool'> => {
  const registers = [registry];
  const stages = new Histogram({
    name: 'tringle_stage_seconds',
    help: 'Time taken by each stage of processing a score',
    labelNames: ['pool', 'stage'],
    buckets: REQUEST_SECONDS,
    registers,
  });
  const restarts = new Counter({
    name: 'tringle_worker_restarts_total',
    help: 'Threads that ended or crashed and were replaced',
    labelNames: ['pool'],
    registers,
  });
  const pools = new Map<string, () => PoolState>();
  watchPools(registry, pools);
  return {
    observeStages: (pool, seconds) => {
      for (const [stage, value] of Object.entries(seconds)) stages.observe({ pool, stage }, value);
    },
    countRestart: (pool) => restarts.inc({ pool }),
    watchPool: (pool, state) => {
      pools.set(pool, state);
      restarts.inc({ pool }, 0);
    },
  };
};

const watchPools = (registry: Registry, pools: ReadonlyMap<string, () => PoolState>): void => {
  const registers = [registry];
  new Gauge({
    name: 'tringle_pool_jobs',
    help: 'Requests that a pool is processing or keeps waiting',
    labelNames: ['pool', 'state'],
    registers,
    collect() {
      for (const [pool, state] of pools) {
        const { working, waiting } = state();
        this.set({ pool, state: 'working' }, working);
        this.set({ pool, state: 'waiting' }, waiting);
      }
    },
  });
  new Gauge({
    name: 'tringle_pool_threads',
    help: 'Running threads of a pool',
    labelNames: ['pool'],
    registers,
    collect() {
      for (const [pool, state] of pools) this.set({ pool }, state().threads);
    },
  });
};

const watchJobs = (registry: Registry, count: Parameters<Metrics['watchJobs']>[0]): void => {
  new Gauge({
    name: 'tringle_jobs',
    help: 'Jobs that are being processed or are waiting',
    labelNames: ['state'],
    registers: [registry],
    async collect() {
      const { waiting, working } = await count();
      this.set({ state: 'waiting' }, waiting);
      this.set({ state: 'working' }, working);
    },
  });
};

const watchUploads = (registry: Registry, heldBytes: () => number): void => {
  new Gauge({
    name: 'tringle_upload_bytes',
    help: 'Memory taken by uploads, in bytes',
    registers: [registry],
    collect() {
      this.set(heldBytes());
    },
  });
};
