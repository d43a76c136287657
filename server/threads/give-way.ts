import { getPriority, setPriority } from 'node:os';

/** The least urgent that Linux knows (setpriority(2)). */
const LEAST_URGENT = 19;

/** A tenth of the processor's time against one thread of usual priority (sched(7)): enough not to starve. */
const LESS_URGENT = 10;

/** Lets what takes long in this thread give way to what answers quickly: on Linux the priority is that of the calling thread alone. */
export const giveWay = (): void => {
  if (process.platform === 'linux') setPriority(0, Math.min(LEAST_URGENT, getPriority(0) + LESS_URGENT));
};
