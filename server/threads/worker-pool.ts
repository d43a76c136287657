import { MessageChannel, type MessagePort, receiveMessageOnPort } from 'node:worker_threads';
import { Piscina } from 'piscina';
import type { ReadyPage } from '../../render/index.ts';
import { fail, type Outcome } from '../service-problem.ts';
import { createLender, type Lender } from './helping/lend-threads.ts';
import type { SharedEnd } from './helping/shared-tasks.ts';
import type { JobResult, Perform, Progress, Reply, Told, WorkerMessage } from './job.ts';
import { joinStops } from './joined-stop.ts';
import { createGate, type Gate, type QueuePolicy } from './queue-gate.ts';

export interface PoolSettings<Job> {
  readonly name: string;
  /** The worker's JavaScript file, as a `file:` URL; it exports `work`. */
  readonly workerFile: string;
  /** Whether threads that have no job help those that have: the file exports `help`. */
  readonly helps: boolean;
  /** Jobs are worked on at a time, one for each of these: the dearest job that is taken there, in milliseconds. */
  readonly ceilings: readonly number[];
  /** About how long a job takes, in milliseconds: cheap ones go first. */
  readonly costOf: (job: Job) => number;
  /** Threads that are started and wait to take over from one that has to be ended. */
  readonly spares: number;
  /** Jobs that may wait for a thread; more are told `busy`. */
  readonly queue: number;
  /** How long a job may work, waiting not counted. */
  readonly timeLimitMs: number;
  /** Heap of one thread's own objects; a job that needs more ends its thread, not the service. */
  readonly heapLimitMb: number;
}

/** Told what happens in a pool. */
export interface PoolWatch {
  readonly onWork: (seconds: JobResult['seconds']) => void;
  /** A thread was ended, or died, and another takes its place. */
  readonly onRestart: () => void;
  /** A thread failed while it had no job. */
  readonly onIdleFailure: (error: unknown) => void;
}

export interface PoolState {
  /** Threads that are alive; a dead one is replaced at once. */
  readonly threads: number;
  readonly working: number;
  readonly waiting: number;
  readonly queue: number;
}

/** Threads that do one kind of job, one job at a time each. */
export interface Pool<Job> {
  readonly perform: Perform<Job>;
  /** As `perform`, but waits however many wait already: for jobs whose number is bounded elsewhere. */
  readonly performUnlimited: Perform<Job>;
  readonly state: () => PoolState;
  /** Gives up all jobs, as `cancelled`, and ends the threads. */
  readonly close: () => Promise<void>;
}

/** A job takes a few seconds, so that a place is free again after about that long. */
const RETRY_AFTER_SECONDS = 5;

type Threads<Job> = Piscina<WorkerMessage<Job> | SharedEnd, JobResult>;

const startThreads = <Job>(settings: PoolSettings<Job>): Threads<Job> => {
  const threads = settings.ceilings.length + settings.spares;
  return new Piscina<WorkerMessage<Job> | SharedEnd, JobResult>({
    filename: settings.workerFile,
    name: 'work',
    minThreads: threads,
    maxThreads: threads,
    // Between jobs a thread stays awake to prepare its renderer.
    atomics: 'disabled',
    resourceLimits: { maxOldGenerationSizeMb: settings.heapLimitMb },
  });
};

/**
 * Watches for threads that fail while they have no job; without this their error would end the process.
 *
 * @returns a signal, new after each firing, that fires when no thread is left: a job that waits for one waits in vain
 */
const watchThreads = <Job>(threads: Threads<Job>, watch: PoolWatch): (() => AbortSignal) => {
  let lost = new AbortController();
  threads.on('workerDestroy', watch.onRestart);
  threads.on('error', (error) => {
    watch.onIdleFailure(error);
    if (threads.threads.length > 0) return;
    lost.abort(error);
    lost = new AbortController();
  });
  return () => lost.signal;
};

/** The job for a thread: its bytes are a copy, so that the caller's stay whole, and nothing beside them goes along. */
const packJob = <Job extends object>(job: Job): { readonly job: Job; readonly transfers: ArrayBuffer[] } => {
  if (!('bytes' in job) || !(job.bytes instanceof Uint8Array)) return { job, transfers: [] };
  const bytes = new Uint8Array(job.bytes);
  return { job: { ...job, bytes }, transfers: [bytes.buffer] };
};

/** Where a thread tells how its job goes. */
interface ToldPort {
  /** The thread's end, which it closes when it is done. */
  readonly port: MessagePort;
  /** Tells at once what is still on its way. */
  readonly tellRest: () => void;
}

const openPort = (
  onProgress: ((progress: Progress) => void) | undefined,
  onPage: ((page: ReadyPage) => void) | undefined,
): ToldPort | null => {
  if (onProgress === undefined && onPage === undefined) return null;
  const { port1, port2 } = new MessageChannel();
  const tell = (told: Told): void => {
    if ('stage' in told) onProgress?.(told);
    else onPage?.(told);
  };
  port1.on('message', tell);
  const tellRest = (): void => {
    for (let rest = receiveMessageOnPort(port1); rest !== undefined; rest = receiveMessageOnPort(port1)) {
      tell(rest.message as Told);
    }
  };
  // It closes with the other end; the process need not wait for it.
  port1.unref();
  return { port: port2, tellRest };
};

/** Lends threads without a job to those that have one; null where there is no other, or it does not help. */
const lenderFor = <Job>(
  threads: Threads<Job>,
  { helps, ceilings }: PoolSettings<Job>,
  gate: Gate,
): Lender | null =>
  helps && ceilings.length > 1
    ? createLender(
        () => ceilings.length - gate.state().inside,
        (end, signal) => threads.run(end, { name: 'help', signal, transferList: [end.port] }),
      )
    : null;

/** Has a job done by one of the threads, as soon as there is a place for it, and says why it was not. */
const workIn = <Job extends object>(
  threads: Threads<Job>,
  settings: PoolSettings<Job>,
  watch: PoolWatch,
  lender: Lender | null,
): Perform<Job> => {
  const lostSignal = watchThreads(threads, watch);
  return async (job, stop, onProgress, onPage) => {
    const lost = lostSignal();
    const limited = joinStops([stop, lost], settings.timeLimitMs);
    const packed = packJob(job);
    const telling = openPort(onProgress, onPage);
    const helped = lender?.begin() ?? null;
    const ports = [telling?.port, helped?.own.port].filter((port) => port !== undefined);
    try {
      const { outcome, seconds } = await threads.run(
        { job: packed.job, port: telling?.port ?? null, help: helped?.own ?? null },
        {
          signal: limited.signal,
          transferList: [...packed.transfers, ...ports],
        },
      );
      // The outcome comes another way than what is told, and may overtake it.
      telling?.tellRest();
      watch.onWork(seconds);
      return outcome;
    } catch (error) {
      if (stop.aborted) return fail({ code: 'cancelled' });
      if (limited.isLate()) return fail({ code: 'timed-out', limitSeconds: settings.timeLimitMs / 1000 });
      throw lost.aborted ? new Error('no worker starts', { cause: lost.reason }) : error;
    } finally {
      limited.release();
      helped?.end();
    }
  };
};

/**
 * Starts the threads.
 *
 * A job that is stuck, or whose client has gone, has its thread ended and replaced: nothing else can stop a thread
 * that is computing. A thread that dies rejects its job with the reason and is replaced.
 */
export const createPool = <Job extends object>(settings: PoolSettings<Job>, watch: PoolWatch): Pool<Job> => {
  const threads = startThreads<Job>(settings);
  const gate = createGate(settings.ceilings, settings.queue);
  const closing = new AbortController();
  const work = workIn(threads, settings, watch, lenderFor(threads, settings, gate));

  const performWith =
    (patience: QueuePolicy): Perform<Job> =>
    async (job, signal, onProgress, onPage): Promise<Outcome<Reply>> => {
      const stop = joinStops([signal, closing.signal], null);
      try {
        const entry = await gate.enter(stop.signal, { cost: settings.costOf(job), patience });
        if (entry.kind === 'full') return fail({ code: 'busy', retryAfterSeconds: RETRY_AFTER_SECONDS });
        if (entry.kind === 'aborted') return fail({ code: 'cancelled' });
        return await work(job, stop.signal, onProgress, onPage).finally(entry.leave);
      } finally {
        stop.release();
      }
    };

  return {
    perform: performWith('turned-away'),
    performUnlimited: performWith('patient'),
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
