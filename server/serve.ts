import { randomUUID } from 'node:crypto';
import { createServer, type Server } from 'node:http';
import type { Duplex } from 'node:stream';
import { destination, type Logger } from 'pino';
import type { Address } from './address.ts';
import { createApp } from './app.ts';
import type { JobHands } from './jobs/carry-out.ts';
import { openFolderStore } from './jobs/folder-store.ts';
import type { JobQueue } from './jobs/job.ts';
import { createLocalQueue } from './jobs/local-queue.ts';
import { openSharedQueue } from './jobs/shared-queue.ts';
import { createLog } from './log.ts';
import { createMetrics } from './metrics.ts';
import { awaitThreads, closePools, type Pools, startPools, thinkIn } from './pools.ts';
import { describeProblem } from './problems.ts';
import type { Settings } from './settings.ts';
import { stopService } from './stop.ts';
import { createUploadBudget } from './upload-budget.ts';

export interface RunningService {
  readonly url: string;
  /** Takes no new requests, lets those under way end for a while, then gives them up. */
  readonly close: () => Promise<void>;
}

/** How often the time that requests take to arrive is looked at. */
const ARRIVAL_CHECK_MS = 1_000;

/** A queue, and what is left to do when it is closed. */
interface OpenQueue {
  readonly jobs: JobQueue;
  readonly close: (graceMs: number) => Promise<void>;
}

const openQueue = async (settings: Settings, pools: Pools, log: Logger): Promise<OpenQueue> => {
  const hands: Omit<JobHands, 'store'> = {
    annotate: pools.drawing.performPatiently,
    think: thinkIn(pools, 'performPatiently'),
    mostScores: settings.JOB_FILES,
    recordBug: (err) => {
      const incident = randomUUID();
      log.error({ incident, err }, 'bug in a job');
      return incident;
    },
  };
  const keepMs = settings.JOB_KEEP_MINUTES * 60_000;
  const common = { hands: settings.THREADS, waiting: settings.JOBS, keepMs };
  if (settings.REDIS_URL !== null) {
    const lockMs = settings.JOB_LOCK_SECONDS * 1000;
    const jobs = openSharedQueue(hands, { ...common, url: settings.REDIS_URL, lockMs });
    return { jobs, close: jobs.close };
  }
  const store = await openFolderStore(settings.JOB_FOLDER, keepMs);
  const jobs = createLocalQueue({ ...hands, store }, common);
  return {
    jobs,
    close: async (graceMs) => {
      await jobs.close(graceMs);
      await store.close();
    },
  };
};

/** Answers what never reaches the app: bytes that are not HTTP, and requests that do not arrive in time. */
const answerBrokenRequest = (limitSeconds: number) => (error: Error, socket: Duplex) => {
  if (!socket.writable) return;
  const isLate = 'code' in error && error.code === 'ERR_HTTP_REQUEST_TIMEOUT';
  const { status, body } = describeProblem(
    isLate ? { code: 'request-timeout', limitSeconds } : { code: 'bad-request', reason: error.message },
  );
  const text = JSON.stringify(body);
  socket.end(
    `HTTP/1.1 ${status} ${isLate ? 'Request Timeout' : 'Bad Request'}\r\n` +
      `Content-Type: application/problem+json\r\nX-Content-Type-Options: nosniff\r\n` +
      `Content-Length: ${Buffer.byteLength(text)}\r\nConnection: close\r\n\r\n${text}`,
  );
};

const listen = (server: Server, { port, host }: Address): Promise<void> =>
  new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, host, () => {
      server.off('error', reject);
      resolve();
    });
  });

const urlOf = (server: Server, host: string): string => {
  const address = server.address();
  if (address === null || typeof address === 'string') throw new Error('the service has no port');
  return `http://${host.includes(':') ? `[${host}]` : host}:${address.port}`;
};

/**
 * Starts the service.
 *
 * @throws the system's error where the address cannot be had, and an Error where the threads do not start
 */
export const startService = async (address: Address, settings: Settings): Promise<RunningService> => {
  const log = createLog(settings.LOG_LEVEL, destination({ fd: 2, sync: true }));
  const metrics = createMetrics();
  const pools = startPools(settings, metrics, log);
  const queue = await openQueue(settings, pools, log);
  const uploads = createUploadBudget(settings.UPLOADS_LIMIT_BYTES);
  metrics.watchJobs(queue.jobs.count);
  metrics.watchUploads(uploads.heldBytes);
  let closing = false;
  const app = createApp({
    annotate: pools.drawing.perform,
    think: thinkIn(pools, 'perform'),
    jobs: queue.jobs,
    uploads,
    uploadLimitBytes: settings.UPLOAD_LIMIT_BYTES,
    poolState: pools.drawing.state,
    findHindrances: async () => [
      ...(closing ? ['the service is closing'] : []),
      ...(pools.drawing.state().threads === 0 ? ['no thread is alive'] : []),
      ...((await queue.jobs.isReady()) ? [] : ['the queue of jobs cannot be reached']),
    ],
    metrics,
    access: {
      apiKeys: settings.API_KEYS,
      ratePerMinute: settings.RATE_LIMIT_PER_MINUTE,
      trustedProxies: settings.TRUSTED_PROXIES,
    },
    log,
  });
  const server = createServer(
    {
      requestTimeout: settings.UPLOAD_SECONDS * 1000,
      headersTimeout: Math.min(20_000, settings.UPLOAD_SECONDS * 1000),
      connectionsCheckingInterval: ARRIVAL_CHECK_MS,
    },
    app,
  );
  server.on('clientError', answerBrokenRequest(settings.UPLOAD_SECONDS));
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
