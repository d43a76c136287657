/** What became of someone who came to the gate. Who has entered must leave, once. */
export type GateEntry =
  | { readonly kind: 'entered'; readonly leave: () => void }
  | { readonly kind: 'full' }
  | { readonly kind: 'aborted' };

export interface GateState {
  readonly inside: number;
  readonly waiting: number;
}

/** Whether one is turned away where the queue is full, or waits however long it is. */
export type QueuePolicy = 'turned-away' | 'patient';

/** Who comes to the gate. */
export interface Comer {
  /** About how long it will be inside, in milliseconds. */
  readonly cost: number;
  readonly patience: QueuePolicy;
}

export interface Gate {
  readonly enter: (signal: AbortSignal, comer: Comer) => Promise<GateEntry>;
  readonly state: () => GateState;
}

interface Place {
  /** The dearest that it takes. */
  readonly ceiling: number;
  taken: boolean;
}

interface Waiting extends Comer {
  /** Who has the least goes first. */
  readonly rank: number;
  readonly proceed: (entry: GateEntry) => void;
}

/** Those who wait, in the order in which they are called: by when they came and what they cost, taken together. */
interface Line {
  readonly wait: (signal: AbortSignal, comer: Comer) => Promise<GateEntry>;
  /** Takes the first out that can go, and has it proceed. */
  readonly callFirst: (findPlace: (cost: number) => Place | undefined) => void;
  readonly count: (policy?: QueuePolicy) => number;
}

const createLine = (now: () => number, admit: (place: Place) => GateEntry): Line => {
  const waiting: Waiting[] = [];
  const remove = (own: Waiting): void => {
    waiting.splice(waiting.indexOf(own), 1);
  };
  const add = (own: Waiting): void => {
    const after = waiting.findIndex(({ rank }) => rank > own.rank);
    waiting.splice(after < 0 ? waiting.length : after, 0, own);
  };
  return {
    wait: (signal, comer) =>
      new Promise((resolve) => {
        const giveUp = (): void => {
          remove(own);
          resolve({ kind: 'aborted' });
        };
        const own: Waiting = {
          ...comer,
          rank: now() + comer.cost,
          proceed: (entry) => {
            signal.removeEventListener('abort', giveUp);
            resolve(entry);
          },
        };
        signal.addEventListener('abort', giveUp, { once: true });
        add(own);
      }),
    callFirst: (findPlace) => {
      const next = waiting.find(({ cost }) => findPlace(cost) !== undefined);
      if (next === undefined) return;
      remove(next);
      next.proceed(admit(findPlace(next.cost)!));
    },
    count: (policy) => waiting.filter(({ patience }) => policy === undefined || patience === policy).length,
  };
};

/**
 * Lets a number in at a time and keeps a number waiting; turns away the rest at once. Those who wait go by when they came
 * and what they cost, taken together: a cheap one passes a dear one that came shortly before, but a dear one waits no
 * longer for that than it will itself be inside. Who is patient waits outside the count, so that whoever sends the patient
 * must bound them.
 *
 * @param ceilings one for each place: the dearest that it takes; one at least takes any
 * @param queue how many may wait
 * @param now the time in milliseconds
 */
export const createGate = (
  ceilings: readonly number[],
  queue: number,
  now: () => number = () => performance.now(),
): Gate => {
  const places = [...ceilings].sort((a, b) => a - b).map((ceiling): Place => ({ ceiling, taken: false }));

  /** The place that takes least, so that the others are kept for the dear. */
  const findPlace = (cost: number): Place | undefined =>
    places.find(({ taken, ceiling }) => !taken && cost <= ceiling);

  const admit = (place: Place): GateEntry => {
    place.taken = true;
    return {
      kind: 'entered',
      leave: () => {
        place.taken = false;
        line.callFirst(findPlace);
      },
    };
  };
  const line = createLine(now, admit);

  return {
    enter: async (signal, comer) => {
      if (signal.aborted) return { kind: 'aborted' };
      const place = findPlace(comer.cost);
      if (place !== undefined) return admit(place);
      return comer.patience === 'patient' || line.count('turned-away') < queue
        ? line.wait(signal, comer)
        : { kind: 'full' };
    },
    state: () => ({ inside: places.filter(({ taken }) => taken).length, waiting: line.count() }),
  };
};
