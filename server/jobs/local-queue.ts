import { randomUUID } from 'node:crypto';
import { fail } from '../service-problem.ts';
import {
  failedFile,
  inputKey,
  type JobFile,
  type JobQueue,
  type JobRequest,
  type JobState,
  resultKey,
} from './job.ts';
import { type JobWorkers, runJob } from './run-job.ts';

export interface LocalQueueSettings {
  /** Jobs worked on at a time. */
  readonly concurrency: number;
  /** Jobs that may wait; more are told `busy`. */
  readonly waiting: number;
  /** How long results are kept. */
  readonly keepMs: number;
}

interface LocalJob {
  readonly id: string;
  readonly order: JobRequest;
  readonly createdAt: number;
  readonly stop: AbortController;
  state: JobState;
  files: readonly JobFile[];
  expiresAt: number | null;
}

const RETRY_AFTER_SECONDS = 30;

/** Jobs that are done in this process, and end with it. */
export const createLocalQueue = (workers: JobWorkers, settings: LocalQueueSettings): JobQueue => {
  const jobs = new Map<string, LocalJob>();
  const waiting: LocalJob[] = [];
  const working = new Set<Promise<void>>();
  let closing = false;

  const forget = async (job: LocalJob): Promise<void> => {
    jobs.delete(job.id);
    await workers.store.remove([inputKey(job.id), ...job.files.map((_, index) => resultKey(job.id, index))]);
  };

  const work = async (job: LocalJob): Promise<void> => {
    job.state = 'working';
    const onProgress = (files: readonly JobFile[]): void => {
      job.files = files;
    };
    try {
      job.files = await runJob(job.id, job.order, workers, onProgress, job.stop.signal);
      job.state = 'done';
    } catch (error) {
      job.state = 'failed';
      if (!job.stop.signal.aborted && !closing) {
        job.files = [
          failedFile(job.order.fileName, { code: 'internal', incident: workers.recordBug(error) }),
        ];
      }
    }
    if (!jobs.has(job.id)) return forget(job);
    job.expiresAt = Date.now() + settings.keepMs;
    setTimeout(() => void forget(job).catch(workers.recordBug), settings.keepMs).unref();
    await workers.store.remove([inputKey(job.id)]);
  };

  const proceed = (): void => {
    while (!closing && working.size < settings.concurrency) {
      const job = waiting.shift();
      if (job === undefined) return;
      const ended = work(job)
        .catch((bug: unknown) => void workers.recordBug(bug))
        .finally(() => {
          working.delete(ended);
          proceed();
        });
      working.add(ended);
    }
  };

  return {
    submit: async (order, bytes) => {
      if (closing || waiting.length >= settings.waiting) {
        return fail({ code: 'busy', retryAfterSeconds: RETRY_AFTER_SECONDS });
      }
      const job: LocalJob = {
        id: randomUUID(),
        order,
        createdAt: Date.now(),
        stop: new AbortController(),
        state: 'waiting',
        files: [],
        expiresAt: null,
      };
      const kept = await workers.store.put(inputKey(job.id), bytes);
      if (!kept.ok) return kept;
      jobs.set(job.id, job);
      waiting.push(job);
      proceed();
      return { ok: true, value: job.id };
    },
    find: async (id) => {
      const job = jobs.get(id);
      if (job === undefined) return null;
      const { state, createdAt, expiresAt, files } = job;
      return { id, state, createdAt, expiresAt, files };
    },
    readResult: async (id, file) => (jobs.has(id) ? workers.store.get(resultKey(id, file)) : null),
    cancel: async (id) => {
      const job = jobs.get(id);
      if (job === undefined) return false;
      jobs.delete(id);
      job.stop.abort();
      const place = waiting.indexOf(job);
      if (place >= 0) waiting.splice(place, 1);
      // One that is worked on is forgotten when its thread has let go of it.
      if (job.state !== 'working') await forget(job);
      return true;
    },
    count: async () => ({ waiting: waiting.length, working: working.size }),
    isReady: async () => !closing,
    close: async (graceMs) => {
      closing = true;
      const late = setTimeout(() => {
        for (const job of jobs.values()) job.stop.abort();
      }, graceMs);
      await Promise.all(working);
      clearTimeout(late);
    },
  };
};
