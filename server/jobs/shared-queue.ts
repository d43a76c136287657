import { randomUUID } from 'node:crypto';
import { type Job, Queue, UnrecoverableError, Worker } from 'bullmq';
import { Redis } from 'ioredis';
import { fail } from '../service-problem.ts';
import {
  failedFile,
  inputKey,
  type JobFile,
  type JobQueue,
  type JobRequest,
  type JobState,
  type JobStatus,
  resultKey,
} from './job.ts';
import { createRedisStore } from './redis-store.ts';
import { type JobWorkers, runJob } from './run-job.ts';
import { type TellConnection, watchConnection } from './watch-connection.ts';

export interface SharedQueueSettings {
  readonly url: string;
  /** Jobs worked on at a time by this process. */
  readonly concurrency: number;
  readonly waiting: number;
  readonly keepMs: number;
  /** After so long without a sign of life of its process, a job goes to another. */
  readonly lockMs: number;
  readonly tellConnection: TellConnection;
}

type SharedJob = Job<JobRequest, readonly JobFile[]>;

/** A job as it was read, and where it was shortly before. */
interface FoundJob {
  readonly job: SharedJob;
  readonly state: JobState;
}

const QUEUE = 'tringle-jobs';

const RETRY_AFTER_SECONDS = 30;

/** How often a process looks whether its jobs were cancelled elsewhere. */
const CANCEL_CHECK_MS = 500;

/** A job that is begun so often and never ends, because its process dies each time, is given up. */
const MOST_STARTS = 5;

/** Time that waiting takes is not known beforehand: scores wait for a day at most. */
const LONGEST_WAIT_SECONDS = 24 * 3600;

const cancelKey = (id: string): string => `tringle:cancel:${id}`;

/** The words of BullMQ for where a job is, in ours. */
const stateOf = (word: string): JobState => {
  switch (word) {
    case 'active':
      return 'working';
    case 'completed':
      return 'done';
    case 'failed':
      return 'failed';
    default:
      return 'waiting';
  }
};

const filesOf = (job: SharedJob, state: JobState): readonly JobFile[] => {
  if (state === 'done') return job.returnvalue;
  if (state === 'failed') {
    return [failedFile(job.data.fileName, { code: 'internal', incident: job.id ?? '' })];
  }
  return Array.isArray(job.progress) ? (job.progress as readonly JobFile[]) : [];
};

/** A connection without a listener for errors ends the process. That it is lost is told by `watchConnection`. */
const ignoreLoss = (): void => {};

/** Starts the part of this process in the work: jobs of any machine. */
const startWorker = (
  connection: Redis,
  redis: Redis,
  workers: JobWorkers,
  { concurrency, lockMs }: SharedQueueSettings,
): { readonly worker: Worker<JobRequest, readonly JobFile[]>; readonly giveUp: () => void } => {
  const givingUp = new AbortController();
  const work = async (job: SharedJob): Promise<readonly JobFile[]> => {
    const id = job.id!;
    const cancelled = new AbortController();
    const look = (): Promise<void> =>
      redis.exists(cancelKey(id)).then(
        (exists) => {
          if (exists === 1) cancelled.abort();
        },
        // Cancelling is looked for again in a moment.
        ignoreLoss,
      );
    await look();
    const watch = setInterval(look, CANCEL_CHECK_MS);
    const onProgress = (files: readonly JobFile[]): void => {
      // What is told next has all of it.
      job.updateProgress([...files]).catch(ignoreLoss);
    };
    try {
      const stop = AbortSignal.any([cancelled.signal, givingUp.signal]);
      return await runJob(id, job.data, workers, onProgress, stop);
    } catch (error) {
      // What was cancelled is not begun anew, as a job that was given up for another reason is.
      throw cancelled.signal.aborted ? new UnrecoverableError('cancelled') : error;
    } finally {
      clearInterval(watch);
    }
  };
  const worker = new Worker<JobRequest, readonly JobFile[]>(QUEUE, work, {
    connection,
    concurrency,
    lockDuration: lockMs,
    stalledInterval: lockMs,
    maxStalledCount: MOST_STARTS,
  });
  // A job that fails is told by its own state.
  worker.on('error', ignoreLoss);
  return { worker, giveUp: () => givingUp.abort() };
};

/** Jobs in a Redis that several machines share: each takes the next, and the job of one that dies goes to another. */
export class SharedQueue implements JobQueue {
  readonly #settings: SharedQueueSettings;
  readonly #recordBug: JobWorkers['recordBug'];
  readonly #redis: Redis;
  readonly #blocking: Redis;
  readonly #keepSeconds: number;
  readonly #store: JobWorkers['store'];
  readonly #queue: Queue<JobRequest, readonly JobFile[]>;
  readonly #own: ReturnType<typeof startWorker>;

  constructor(workers: Omit<JobWorkers, 'store'>, settings: SharedQueueSettings) {
    this.#settings = settings;
    this.#recordBug = workers.recordBug;
    // A request is refused at once where Redis is away; a worker goes on trying.
    this.#redis = new Redis(settings.url, { maxRetriesPerRequest: 1, enableOfflineQueue: true });
    this.#blocking = new Redis(settings.url, { maxRetriesPerRequest: null });
    for (const connection of [this.#redis, this.#blocking]) connection.on('error', ignoreLoss);
    watchConnection(this.#redis, settings.tellConnection);
    this.#keepSeconds = Math.ceil(settings.keepMs / 1000);
    this.#store = createRedisStore(this.#redis, this.#keepSeconds + LONGEST_WAIT_SECONDS);
    this.#queue = openQueue(this.#redis, this.#keepSeconds);
    this.#own = startWorker(this.#blocking, this.#redis, { ...workers, store: this.#store }, settings);
  }

  async submit(order: JobRequest, bytes: Uint8Array): ReturnType<JobQueue['submit']> {
    const busy = fail({ code: 'busy', retryAfterSeconds: RETRY_AFTER_SECONDS });
    try {
      if ((await this.count()).waiting >= this.#settings.waiting) return busy;
      const id = randomUUID();
      const kept = await this.#store.put(inputKey(id), bytes);
      if (!kept.ok) return kept;
      await this.#queue.add('scores', order, { jobId: id });
      return { ok: true, value: id };
    } catch (error) {
      this.#recordBug(error);
      return busy;
    }
  }

  async find(id: string): ReturnType<JobQueue['find']> {
    const found = await this.#findJob(id);
    return found === null ? null : describeJob(found, this.#settings.keepMs);
  }

  async readResult(id: string, file: number): ReturnType<JobQueue['readResult']> {
    return (await this.#findJob(id)) === null ? null : this.#store.get(resultKey(id, file));
  }

  async cancel(id: string): Promise<boolean> {
    const found = await this.#findJob(id);
    if (found === null) return false;
    await this.#redis.set(cancelKey(id), '1', 'EX', this.#keepSeconds + LONGEST_WAIT_SECONDS);
    const { job, state } = found;
    await this.#store.remove([inputKey(id), ...filesOf(job, state).map((_, index) => resultKey(id, index))]);
    // One that is worked on is locked; its process sees the key and lets go of it.
    await job.remove().catch(() => {});
    return true;
  }

  async count(): ReturnType<JobQueue['count']> {
    const { waiting, active, delayed } = await this.#queue.getJobCounts('waiting', 'active', 'delayed');
    return { waiting: (waiting ?? 0) + (delayed ?? 0), working: active ?? 0 };
  }

  isReady(): Promise<boolean> {
    return this.#redis.ping().then(
      () => true,
      () => false,
    );
  }

  async close(graceMs: number): Promise<void> {
    const late = setTimeout(this.#own.giveUp, graceMs);
    await this.#own.worker.close();
    clearTimeout(late);
    await this.#queue.close();
    this.#redis.disconnect();
    this.#blocking.disconnect();
  }

  // The state is asked for first: a job that is done by then holds its results when it is read.
  async #findJob(id: string): Promise<FoundJob | null> {
    if ((await this.#redis.exists(cancelKey(id))) === 1) return null;
    const state = stateOf(await this.#queue.getJobState(id));
    const job = await this.#queue.getJob(id);
    return job === undefined ? null : { job, state };
  }
}

const openQueue = (connection: Redis, keepSeconds: number): Queue<JobRequest, readonly JobFile[]> => {
  const keep = { age: keepSeconds };
  const queue = new Queue<JobRequest, readonly JobFile[]>(QUEUE, {
    connection,
    defaultJobOptions: {
      attempts: MOST_STARTS,
      backoff: { type: 'fixed', delay: 500 },
      removeOnComplete: keep,
      removeOnFail: keep,
    },
  });
  queue.on('error', ignoreLoss);
  return queue;
};

const describeJob = ({ job, state }: FoundJob, keepMs: number): JobStatus => {
  const ended = state === 'done' || state === 'failed';
  return {
    id: job.id!,
    state,
    createdAt: job.timestamp,
    expiresAt: ended && job.finishedOn !== undefined ? job.finishedOn + keepMs : null,
    files: filesOf(job, state),
  };
};
