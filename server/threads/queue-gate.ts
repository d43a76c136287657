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

export interface Gate {
  readonly enter: (signal: AbortSignal, patience?: QueuePolicy) => Promise<GateEntry>;
  readonly state: () => GateState;
}

/**
 * Lets a number in at a time and keeps a number waiting, first come first served; turns away the rest at once. Who is
 * patient waits outside the count, so that whoever sends the patient must bound them.
 *
 * @param places how many may be inside
 * @param queue how many may wait
 */
export const createGate = (places: number, queue: number): Gate => {
  let inside = 0;
  const waiting: { readonly proceed: (entry: GateEntry) => void; readonly patience: QueuePolicy }[] = [];

  const admit = (): GateEntry => {
    inside += 1;
    return {
      kind: 'entered',
      leave: () => {
        inside -= 1;
        waiting.shift()?.proceed(admit());
      },
    };
  };

  const wait = (signal: AbortSignal, policy: QueuePolicy): Promise<GateEntry> =>
    new Promise((resolve) => {
      const giveUp = (): void => {
        waiting.splice(waiting.indexOf(place), 1);
        resolve({ kind: 'aborted' });
      };
      const place = {
        patience: policy,
        proceed: (entry: GateEntry): void => {
          signal.removeEventListener('abort', giveUp);
          resolve(entry);
        },
      };
      signal.addEventListener('abort', giveUp, { once: true });
      waiting.push(place);
    });

  const countTurnedAway = (): number =>
    waiting.filter(({ patience: policy }) => policy === 'turned-away').length;

  return {
    enter: async (signal, policy = 'turned-away') => {
      if (signal.aborted) return { kind: 'aborted' };
      if (inside < places) return admit();
      return policy === 'patient' || countTurnedAway() < queue ? wait(signal, policy) : { kind: 'full' };
    },
    state: () => ({ inside, waiting: waiting.length }),
  };
};
