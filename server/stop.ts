import type { Server } from 'node:http';

/** What is closed when the service stops. */
export interface Stoppable {
  readonly server: Server;
  /** Lets jobs under way end within so many milliseconds, then hands them back or gives them up. */
  readonly closeQueue: (graceMs: number) => Promise<void>;
  /** Gives up what the threads do, and ends them. */
  readonly closePools: () => Promise<void>;
}

/** Of the time to stop, the share in which work may still end; in the rest it is given up and the threads end. */
const GRACE_SHARE = 0.7;

/** How long those whose work was given up have to be told so. */
const ANSWER_MS = 300;

/** How often connections that fell silent are closed: a client would keep them open for its next request. */
const IDLE_CHECK_MS = 100;

/**
 * Takes no new connections, lets requests and jobs under way end for a while, then gives them up.
 *
 * @param stopMs how long all of this should take; a thread in the midst of native code ends later, and the process with it
 */
export const stopService = async (
  { server, closeQueue, closePools }: Stoppable,
  stopMs: number,
): Promise<void> => {
  const graceMs = stopMs * GRACE_SHARE;
  const timers: NodeJS.Timeout[] = [];
  const after = (milliseconds: number, act: () => void): void => {
    timers.push(setTimeout(act, milliseconds));
  };
  const closed = new Promise<void>((resolve) => server.close(() => resolve()));
  timers.push(setInterval(() => server.closeIdleConnections(), IDLE_CHECK_MS));
  after(graceMs, () => void closePools());
  after(graceMs + ANSWER_MS, () => server.closeAllConnections());
  await Promise.all([closed, closeQueue(graceMs)]);
  await closePools();
  for (const timer of timers) clearTimeout(timer);
};
