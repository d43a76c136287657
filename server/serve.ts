import { createServer, type Server } from 'node:http';
import { availableParallelism } from 'node:os';
import type { Duplex } from 'node:stream';
import { type AppParts, createApp } from './app.ts';
import { type AnnotatorPool, createPool } from './pool.ts';
import { describeProblem } from './problems.ts';

/** Where the service listens. */
export interface Address {
  readonly host: string;
  /** 0 asks for any free port. */
  readonly port: number;
}

export const DEFAULT_ADDRESS: Address = { host: '127.0.0.1', port: 8017 };

export interface RunningService {
  readonly url: string;
  /** Takes no new requests, lets those under way end for a while, then gives them up. */
  readonly close: () => Promise<void>;
}

/** More threads than this need more memory (about 0.4 GB each at 1,000 bars) than a small machine has. */
const MOST_THREADS = 4;

const QUEUE_PER_THREAD = 8;
const TIME_LIMIT_MS = 60_000;
/** More than twice the 424 MB measured for a score of 1,000 bars, where the memory of the layout engine is counted too. */
const HEAP_LIMIT_MB = 1024;
const UPLOAD_LIMIT_BYTES = 50_000_000;

/** How long requests under way may take to end, once the service is told to stop. */
const CLOSE_GRACE_MS = 10_000;

const logBug: AppParts['logBug'] = (incident, bug) => {
  console.error(`tringle: incident ${incident}:`, bug);
};

const startPool = (): AnnotatorPool => {
  const threads = Math.min(MOST_THREADS, availableParallelism());
  return createPool({
    workerFile: new URL('./worker.js', import.meta.url).href,
    threads,
    queue: threads * QUEUE_PER_THREAD,
    timeLimitMs: TIME_LIMIT_MS,
    heapLimitMb: HEAP_LIMIT_MB,
  });
};

/** How long the renderer may take to start. */
const START_LIMIT_MS = 30_000;

/** @throws Error where no renderer comes up: a service that could only fail is not started. */
const awaitRenderer = async (pool: AnnotatorPool): Promise<void> => {
  const nothing = { bytes: new Uint8Array(), options: {}, form: 'plan' } as const;
  const outcome = await pool.annotate(nothing, AbortSignal.timeout(START_LIMIT_MS));
  if (outcome.ok || outcome.problem.code !== 'empty-input') throw new Error('the renderer does not start');
};

/** Answers bytes that are not HTTP, which never reach the app. */
const answerBrokenRequest = (error: Error, socket: Duplex): void => {
  if (!socket.writable) return;
  const { status, body } = describeProblem({ code: 'bad-request', reason: error.message });
  const text = JSON.stringify(body);
  socket.end(
    `HTTP/1.1 ${status} Bad Request\r\nContent-Type: application/problem+json\r\n` +
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

const closeServer = async (server: Server, pool: AnnotatorPool): Promise<void> => {
  const closed = new Promise<void>((resolve) => server.close(() => resolve()));
  server.closeIdleConnections();
  const giveUp = setTimeout(() => {
    void pool.close().then(() => server.closeAllConnections());
  }, CLOSE_GRACE_MS);
  await closed;
  clearTimeout(giveUp);
  await pool.close();
};

/**
 * Starts the service.
 *
 * @throws the system's error where the address cannot be had, and an Error where the renderer does not start
 */
export const startService = async (address: Address): Promise<RunningService> => {
  const pool = startPool();
  const app = createApp({
    annotate: pool.annotate,
    poolState: pool.state,
    uploadLimitBytes: UPLOAD_LIMIT_BYTES,
    logBug,
  });
  const server = createServer(app);
  server.on('clientError', answerBrokenRequest);
  try {
    await awaitRenderer(pool);
    await listen(server, address);
  } catch (error) {
    await pool.close();
    throw error;
  }
  return { url: urlOf(server, address.host), close: () => closeServer(server, pool) };
};
