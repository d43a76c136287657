import { Piscina } from 'piscina';
import type { Annotation } from '../render/annotation.ts';
import type { Annotate, AnnotateJob } from './annotate-job.ts';
import { createGate } from './gate.ts';
import { decline, type Outcome } from './service-problem.ts';

export interface PoolSettings {
  /** The worker's JavaScript file, as a `file:` URL; it exports `annotate`. */
  readonly workerFile: string;
  readonly threads: number;
  /** Jobs that may wait for a thread; more are told `busy`. */
  readonly queue: number;
  /** How long a job may work, waiting not counted. */
  readonly timeLimitMs: number;
  /** Heap of one thread's own objects; a job that needs more ends its thread, not the service. */
  readonly heapLimitMb: number;
}

export interface PoolState {
  /** Threads that are alive; a dead one is replaced at once. */
  readonly threads: number;
  readonly working: number;
  readonly waiting: number;
  readonly queue: number;
}

/** Threads that annotate scores, one score at a time each. */
export interface AnnotatorPool {
  readonly annotate: Annotate;
  readonly state: () => PoolState;
  /** Gives up all jobs, as `cancelled`, and ends the threads. */
  readonly close: () => Promise<void>;
}

/** A job takes a few seconds, so that a place is free again after about that long. */
const RETRY_AFTER_SECONDS = 5;

type Threads = Piscina<AnnotateJob, Outcome<Annotation>>;

const startThreads = (settings: PoolSettings): Threads =>
  new Piscina<AnnotateJob, Outcome<Annotation>>({
    filename: settings.workerFile,
    name: 'annotate',
    minThreads: settings.threads,
    maxThreads: settings.threads,
    // Between jobs a thread stays awake to prepare its renderer.
    atomics: 'disabled',
    resourceLimits: { maxOldGenerationSizeMb: settings.heapLimitMb },
  });

/**
 * Watches for threads that fail while they have no job; without this their error would end the process.
 *
 * @returns a signal, new after each firing, that fires when no thread is left: a job that waits for one waits in vain
 */
const watchThreads = (threads: Threads): (() => AbortSignal) => {
  let lost = new AbortController();
  threads.on('error', (error) => {
    console.error('tringle: a worker failed between jobs:', error);
    if (threads.threads.length > 0) return;
    lost.abort(error);
    lost = new AbortController();
  });
  return () => lost.signal;
};

/**
 * Starts the threads.
 *
 * A job that is stuck, or whose client has gone, has its thread ended and replaced: nothing else can stop a renderer
 * that is computing. A thread that dies rejects its job with the reason and is replaced.
 */
export const createPool = (settings: PoolSettings): AnnotatorPool => {
  const threads = startThreads(settings);
  const lostSignal = watchThreads(threads);
  const gate = createGate(settings.threads, settings.queue);
  const closing = new AbortController();

  const work = async (job: AnnotateJob, stop: AbortSignal): Promise<Outcome<Annotation>> => {
    const lost = lostSignal();
    const deadline = AbortSignal.timeout(settings.timeLimitMs);
    // The thread gets the bytes themselves, so it is given a copy: the caller's stay whole, and nothing beside them goes along.
    const bytes = new Uint8Array(job.bytes);
    try {
      return await threads.run(
        { ...job, bytes },
        { signal: AbortSignal.any([stop, deadline, lost]), transferList: [bytes.buffer] },
      );
    } catch (error) {
      if (stop.aborted) return decline({ code: 'cancelled' });
      if (deadline.aborted) return decline({ code: 'timed-out', limitSeconds: settings.timeLimitMs / 1000 });
      throw lost.aborted ? new Error('no worker starts', { cause: lost.reason }) : error;
    }
  };

  const annotate: Annotate = async (job, signal) => {
    const stop = AbortSignal.any([signal, closing.signal]);
    const entry = await gate.enter(stop);
    if (entry.kind === 'full') return decline({ code: 'busy', retryAfterSeconds: RETRY_AFTER_SECONDS });
    if (entry.kind === 'aborted') return decline({ code: 'cancelled' });
    try {
      return await work(job, stop);
    } finally {
      entry.leave();
    }
  };

  return {
    annotate,
    state: () => {
      const { inside, waiting } = gate.state();
      return { threads: threads.threads.length, working: inside, waiting, queue: settings.queue };
    },
    close: async () => {
      closing.abort();
      await threads.destroy();
    },
  };
};
