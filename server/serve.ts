import { randomUUID } from 'node:crypto';
import { createServer, type Server } from 'node:net';
import { destination, type Logger } from 'pino';
import type { Address } from './address.ts';
import { createApp } from './app.ts';
import type { FollowedScore } from './followed-score.ts';
import { createHttpServer } from './http/http-server.ts';
import { createUploadBudget } from './http/upload-budget.ts';
import { openFolderStore } from './jobs/folder-store.ts';
import type { JobQueue } from './jobs/job.ts';
import { LocalQueue } from './jobs/local-queue.ts';
import type { JobWorkers } from './jobs/run-job.ts';
import { SharedQueue } from './jobs/shared-queue.ts';
import { createLog } from './log.ts';
import { createMetrics } from './metrics.ts';
import type { Settings } from './settings.ts';
import { stopService } from './stop.ts';
import { awaitThreads, closePools, computeIn, type Pools, startPools } from './threads/worker-pools.ts';

export interface RunningService {
  readonly url: string;
  /** Takes no new requests, lets those under way end for a while, then gives them up. */
  readonly close: () => Promise<void>;
}

/** A queue, and what is left to do when it is closed. */
interface OpenQueue {
  readonly jobs: JobQueue;
  readonly close: (graceMs: number) => Promise<void>;
}

const openQueue = async (settings: Settings, pools: Pools, log: Logger): Promise<OpenQueue> => {
  const workers: Omit<JobWorkers, 'store'> = {
    annotate: pools.drawing.performUnlimited,
    compute: computeIn(pools, 'performUnlimited'),
    mostScores: settings.JOB_FILES,
    limitMs: settings.JOB_LIMIT_SECONDS * 1000,
    recordBug: (err) => {
      const incident = randomUUID();
      log.error({ incident, err }, 'bug in a job');
      return incident;
    },
  };
  const keepMs = settings.JOB_KEEP_MINUTES * 60_000;
  const common = { concurrency: settings.THREADS, waiting: settings.JOBS, keepMs };
  if (settings.REDIS_URL !== null) {
    const lockMs = settings.JOB_LOCK_SECONDS * 1000;
    const jobs = new SharedQueue(workers, {
      ...common,
      url: settings.REDIS_URL,
      lockMs,
      tellConnection: (state) => log.warn({ connection: state }, `the connection to Redis is ${state}`),
    });
    return { jobs, close: (graceMs) => jobs.close(graceMs) };
  }
  const store = await openFolderStore(settings.JOB_FOLDER, keepMs);
  const jobs = new LocalQueue({ ...workers, store }, common);
  return {
    jobs,
    close: async (graceMs) => {
      await jobs.close(graceMs);
      await store.close();
    },
  };
};

const listen = (server: Server, { port, host }: Address): Promise<void> =>
  new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, host, () => {
      server.off('error', reject);
      resolve();
    });
  });

/** Takes the address and lets it go: one that cannot be had is told before threads are started for nothing. */
const tryAddress = async (address: Address): Promise<void> => {
  const server = createServer();
  await listen(server, address);
  await new Promise((resolve) => server.close(resolve));
};

const urlOf = (server: Server, host: string): string => {
  const address = server.address();
  if (address === null || typeof address === 'string') throw new Error('the service has no port');
  return `http://${host.includes(':') ? `[${host}]` : host}:${address.port}`;
};

/**
 * Starts the service.
 *
 * @param followed a file that a command follows, for the page to show live
 * @throws the system's error where the address cannot be had, and an Error where the threads do not start
 */
export const startService = async (
  address: Address,
  settings: Settings,
  followed?: FollowedScore,
): Promise<RunningService> => {
  await tryAddress(address);
  const log = createLog(settings.LOG_LEVEL, destination({ fd: 2, sync: true }));
  const metrics = createMetrics();
  const pools = startPools(settings, metrics, log);
  const queue = await openQueue(settings, pools, log);
  const uploads = createUploadBudget(settings.UPLOADS_LIMIT_BYTES);
  metrics.watchJobs(() => queue.jobs.count());
  metrics.watchUploads(uploads.heldBytes);
  let closing = false;
  const app = createApp({
    annotate: pools.drawing.perform,
    compute: computeIn(pools, 'perform'),
    jobs: queue.jobs,
    uploads,
    uploadLimitBytes: settings.UPLOAD_LIMIT_BYTES,
    poolState: pools.drawing.state,
    listReadinessProblems: async () => [
      ...(closing ? ['the service is shutting down'] : []),
      ...(pools.drawing.state().threads === 0 ? ['no worker thread is running'] : []),
      ...((await queue.jobs.isReady()) ? [] : ['the job queue cannot be reached']),
    ],
    metrics,
    access: {
      apiKeys: settings.API_KEYS,
      ratePerMinute: settings.RATE_LIMIT_PER_MINUTE,
      trustedProxies: settings.TRUSTED_PROXIES,
    },
    log,
    ...(followed === undefined ? {} : { followed }),
  });
  const server = createHttpServer(app, settings.UPLOAD_SECONDS);
  try {
    await awaitThreads(pools);
    await listen(server, address);
  } catch (error) {
    await queue.close(0);
    await closePools(pools);
    throw error;
  }
  return {
    url: urlOf(server, address.host),
    close: () => {
      closing = true;
      return stopService(
        { server, closeQueue: queue.close, closePools: () => closePools(pools) },
        settings.STOP_SECONDS * 1000,
      );
    },
  };
};
