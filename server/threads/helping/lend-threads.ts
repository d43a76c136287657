import { MessageChannel } from 'node:worker_threads';
import { createClaims, endHelp, giveBack, type SharedEnd } from './shared-tasks.ts';

/** A job that may be helped. */
export interface HelpedJob {
  /** For the thread that does the job, which closes the port. */
  readonly own: SharedEnd;
  /** To be called when the job has ended, however it did. */
  readonly end: () => void;
}

/** Has idle threads help those that work. Each job is helped once at most: a helper that was called back does not return. */
export interface Lender {
  /** To be called when the job's own place is taken. */
  readonly begin: () => HelpedJob;
}

/** How long a helper may take to come back before its thread is ended. */
const LONGEST_RETURN_MS = 10_000;

/** What is known of a job. */
interface Job {
  /** For the helper. */
  readonly end: SharedEnd;
  help: 'none-yet' | 'begun' | 'over';
  /** Ends a helper's thread. */
  readonly stuck: AbortController;
}

/**
 * @param countFree how many threads do no job of their own
 * @param help has a thread help, until it is told that no help is wanted, or the signal fires
 */
export const createLender = (
  countFree: () => number,
  help: (end: SharedEnd, stuck: AbortSignal) => Promise<unknown>,
): Lender => {
  const jobs = new Set<Job>();
  /** Jobs whose helpers are not back yet. */
  const helped = new Set<Job>();

  const lend = async (job: Job): Promise<void> => {
    job.help = 'begun';
    helped.add(job);
    try {
      await help(job.end, job.stuck.signal);
    } catch {
      // What a helper could not draw is drawn by the thread that it helped, which tells what is wrong with it.
    } finally {
      giveBack(job.end.claims);
      job.help = 'over';
      helped.delete(job);
      balance();
    }
  };

  const callBack = (job: Job): void => {
    job.help = 'over';
    endHelp(job.end.claims);
    setTimeout(() => {
      if (helped.has(job)) job.stuck.abort();
    }, LONGEST_RETURN_MS).unref();
  };

  /** Lends threads that are free, and calls back those that are wanted for another's job. */
  const balance = (): void => {
    const free = countFree();
    const helping = [...helped].filter((job) => job.help === 'begun');
    for (const job of helping.slice(free)) callBack(job);
    const alone = [...jobs].filter((job) => job.help === 'none-yet');
    for (const job of alone.slice(0, Math.max(0, free - helped.size))) void lend(job);
  };

  return {
    begin: () => {
      const claims = createClaims();
      const { port1, port2 } = new MessageChannel();
      const job: Job = { end: { claims, port: port2 }, help: 'none-yet', stuck: new AbortController() };
      jobs.add(job);
      balance();
      return {
        own: { claims, port: port1 },
        end: () => {
          jobs.delete(job);
          if (job.help === 'none-yet') port2.close();
          else if (job.help === 'begun') callBack(job);
          balance();
        },
      };
    },
  };
};
