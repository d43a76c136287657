import { type MessagePort, receiveMessageOnPort } from 'node:worker_threads';
import type { DrawingTask, Drawn, Helper } from '../../../render/index.ts';

/**
 * What two threads share that draw one score: a cell for each task, by which one of them claims it before it begins. Both
 * wait by `Atomics` alone, since the layout is worked out without a pause.
 */
export type Claims = Int32Array<SharedArrayBuffer>;

/** One thread's end of what is shared. */
export interface SharedEnd {
  readonly claims: Claims;
  /** Tasks go one way, drawings the other. */
  readonly port: MessagePort;
}

/** Changes with everything that a helper has to look at. */
const BELL = 0;
/** 1 when no help is wanted any more. */
const ENDED = 1;
const FIRST_TASK = 2;

const FREE = 0;
const OWN = 1;
const HELPERS = 2;
const DRAWN = 3;
/** The helper did not come to an end with it. */
const GIVEN_BACK = 4;

/** A part of 10,000 bars has about as many; what is more is not shared. */
const MOST_TASKS = 4096;

export const createClaims = (): Claims =>
  new Int32Array(new SharedArrayBuffer((FIRST_TASK + MOST_TASKS) * Int32Array.BYTES_PER_ELEMENT));

/** Tasks that are offered together. */
interface Offer {
  readonly first: number;
  readonly tasks: readonly DrawingTask[];
}

interface DrawnTask {
  readonly cell: number;
  readonly drawn: Drawn;
}

/** The helper as the thread sees it whose score it is. */
export const helperAt = ({ claims, port }: SharedEnd): Helper => {
  let next = FIRST_TASK;
  const received = new Map<number, Drawn>();
  const receive = (cell: number): Drawn | undefined => {
    while (!received.has(cell)) {
      const told = receiveMessageOnPort(port)?.message as DrawnTask | undefined;
      if (told === undefined) return undefined;
      received.set(told.cell, told.drawn);
    }
    const drawn = received.get(cell);
    received.delete(cell);
    return drawn;
  };
  const fetch = (cell: number): Drawn | undefined => {
    if (Atomics.compareExchange(claims, cell, FREE, OWN) === FREE) return undefined;
    Atomics.wait(claims, cell, HELPERS);
    return Atomics.load(claims, cell) === DRAWN ? receive(cell) : undefined;
  };
  return {
    offer: (tasks) => {
      const first = next;
      if (tasks.length === 0 || first + tasks.length > claims.length) return tasks.map(() => () => undefined);
      next += tasks.length;
      port.postMessage({ first, tasks } satisfies Offer);
      ring(claims);
      return tasks.map((_, i) => () => fetch(first + i));
    },
  };
};

/**
 * Helps until no help is wanted: of each offer from the end on, so that both meet somewhere.
 *
 * @throws what `draw` throws; its task is given back
 */
export const helpAt = ({ claims, port }: SharedEnd, draw: (task: DrawingTask) => Drawn): void => {
  for (;;) {
    const bell = Atomics.load(claims, BELL);
    if (isEnded(claims)) return;
    const offer = receiveMessageOnPort(port)?.message as Offer | undefined;
    if (offer === undefined) Atomics.wait(claims, BELL, bell);
    else helpWith(offer, { claims, port }, draw);
  }
};

const helpWith = (
  { first, tasks }: Offer,
  { claims, port }: SharedEnd,
  draw: (task: DrawingTask) => Drawn,
): void => {
  for (let i = tasks.length - 1; i >= 0 && !isEnded(claims); i -= 1) {
    const cell = first + i;
    if (Atomics.compareExchange(claims, cell, FREE, HELPERS) !== FREE) continue;
    let outcome = GIVEN_BACK;
    try {
      port.postMessage({ cell, drawn: draw(tasks[i]!) } satisfies DrawnTask);
      outcome = DRAWN;
    } finally {
      Atomics.store(claims, cell, outcome);
      Atomics.notify(claims, cell);
    }
  }
};

const isEnded = (claims: Claims): boolean => Atomics.load(claims, ENDED) === 1;

const ring = (claims: Claims): void => {
  Atomics.add(claims, BELL, 1);
  Atomics.notify(claims, BELL);
};

/** Has the helper end after what it is drawing. */
export const endHelp = (claims: Claims): void => {
  Atomics.store(claims, ENDED, 1);
  ring(claims);
};

/** Gives back what a helper has claimed that is no more: nobody waits for it in vain. */
export const giveBack = (claims: Claims): void => {
  for (let cell = FIRST_TASK; cell < claims.length; cell += 1)
    if (Atomics.compareExchange(claims, cell, HELPERS, GIVEN_BACK) === HELPERS) Atomics.notify(claims, cell);
};
