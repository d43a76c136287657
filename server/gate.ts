/** What became of someone who came to the gate. Who has entered must leave, once. */
export type Entry =
  | { readonly kind: 'entered'; readonly leave: () => void }
  | { readonly kind: 'full' }
  | { readonly kind: 'aborted' };

export interface GateState {
  readonly inside: number;
  readonly waiting: number;
}

/** Whether one is turned away where the queue is full, or waits however long it is. */
export type Patience = 'turned-away' | 'patient';

export interface Gate {
  readonly enter: (signal: AbortSignal, patience?: Patience) => Promise<Entry>;
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
  const waiting: { readonly proceed: (entry: Entry) => void; readonly patience: Patience }[] = [];

  const admit = (): Entry => {
    inside += 1;
    return {
      kind: 'entered',
      leave: () => {
        inside -= 1;
        waiting.shift()?.proceed(admit());
      },
    };
  };

  const wait = (signal: AbortSignal, patience: Patience): Promise<Entry> =>
    new Promise((resolve) => {
      const giveUp = (): void => {
        waiting.splice(waiting.indexOf(place), 1);
        resolve({ kind: 'aborted' });
      };
      const place = {
        patience,
        proceed: (entry: Entry): void => {
          signal.removeEventListener('abort', giveUp);
          resolve(entry);
        },
      };
      signal.addEventListener('abort', giveUp, { once: true });
      waiting.push(place);
    });

  const hurried = (): number => waiting.filter(({ patience }) => patience === 'turned-away').length;

  return {
    enter: async (signal, patience = 'turned-away') => {
      if (signal.aborted) return { kind: 'aborted' };
      if (inside < places) return admit();
      return patience === 'patient' || hurried() < queue ? wait(signal, patience) : { kind: 'full' };
    },
    state: () => ({ inside, waiting: waiting.length }),
  };
};
