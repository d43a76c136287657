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
export class LocalQueue implements JobQueue {
  readonly #workers: JobWorkers;
  readonly #settings: LocalQueueSettings;
  readonly #jobs = new Map<string, LocalJob>();
  readonly #waiting: LocalJob[] = [];
  readonly #working = new Set<Promise<void>>();
  #closing = false;

  constructor(workers: JobWorkers, settings: LocalQueueSettings) {
    this.#workers = workers;
    this.#settings = settings;
  }

  async submit(order: JobRequest, bytes: Uint8Array): ReturnType<JobQueue['submit']> {
    if (this.#closing || this.#waiting.length >= this.#settings.waiting) {
      return fail({ code: 'busy', retryAfterSeconds: RETRY_AFTER_SECONDS });
    }
    const job = newJob(order);
    const kept = await this.#workers.store.put(inputKey(job.id), bytes);
    if (!kept.ok) return kept;
    this.#jobs.set(job.id, job);
    this.#waiting.push(job);
    this.#proceed();
    return { ok: true, value: job.id };
  }

  async find(id: string): ReturnType<JobQueue['find']> {
    const job = this.#jobs.get(id);
    if (job === undefined) return null;
    const { state, createdAt, expiresAt, files } = job;
    return { id, state, createdAt, expiresAt, files };
  }

  async readResult(id: string, file: number): ReturnType<JobQueue['readResult']> {
    return this.#jobs.has(id) ? this.#workers.store.get(resultKey(id, file)) : null;
  }

  async cancel(id: string): Promise<boolean> {
    const job = this.#jobs.get(id);
    if (job === undefined) return false;
    this.#jobs.delete(id);
    job.stop.abort();
    const place = this.#waiting.indexOf(job);
    if (place >= 0) this.#waiting.splice(place, 1);
    // One that is worked on is forgotten when its thread has let go of it.
    if (job.state !== 'working') await this.#forget(job);
    return true;
  }

  async count(): ReturnType<JobQueue['count']> {
    return { waiting: this.#waiting.length, working: this.#working.size };
  }

  async isReady(): Promise<boolean> {
    return !this.#closing;
  }

  async close(graceMs: number): Promise<void> {
    this.#closing = true;
    const late = setTimeout(() => {
      for (const job of this.#jobs.values()) job.stop.abort();
    }, graceMs);
    await Promise.all(this.#working);
    clearTimeout(late);
  }

  #proceed(): void {
    while (!this.#closing && this.#working.size < this.#settings.concurrency) {
      const job = this.#waiting.shift();
      if (job === undefined) return;
      const ended = this.#work(job)
        .catch((bug: unknown) => void this.#workers.recordBug(bug))
        .finally(() => {
          this.#working.delete(ended);
          this.#proceed();
        });
      this.#working.add(ended);
    }
  }

  async #work(job: LocalJob): Promise<void> {
    job.state = 'working';
    const onProgress = (files: readonly JobFile[]): void => {
      job.files = files;
    };
    try {
      job.files = await runJob(job.id, job.order, this.#workers, onProgress, job.stop.signal);
      job.state = 'done';
    } catch (error) {
      job.state = 'failed';
      if (!job.stop.signal.aborted && !this.#closing) {
        const incident = this.#workers.recordBug(error);
        job.files = [failedFile(job.order.fileName, { code: 'internal', incident })];
      }
    }
    if (!this.#jobs.has(job.id)) return this.#forget(job);
    await this.#keepForAWhile(job);
  }

  async #keepForAWhile(job: LocalJob): Promise<void> {
    const { keepMs } = this.#settings;
    job.expiresAt = Date.now() + keepMs;
    setTimeout(() => void this.#forget(job).catch(this.#workers.recordBug), keepMs).unref();
    await this.#workers.store.remove([inputKey(job.id)]);
  }

  async #forget(job: LocalJob): Promise<void> {
    this.#jobs.delete(job.id);
    const results = job.files.map((_, index) => resultKey(job.id, index));
    await this.#workers.store.remove([inputKey(job.id), ...results]);
  }
}

const newJob = (order: JobRequest): LocalJob => ({
  id: randomUUID(),
  order,
  createdAt: Date.now(),
  stop: new AbortController(),
  state: 'waiting',
  files: [],
  expiresAt: null,
});
