/** What became of someone who came to the gate. Who has entered must leave, once. */
export type Entry =
  | { readonly kind: 'entered'; readonly leave: () => void }
  | { readonly kind: 'full' }
  | { readonly kind: 'aborted' };

export interface GateState {
  readonly inside: number;
  readonly waiting: number;
}

export interface Gate {
  readonly enter: (signal: AbortSignal) => Promise<Entry>;
  readonly state: () => GateState;
}

/**
 * Lets a number in at a time and keeps a number waiting, first come first served; turns away the rest at once.
 *
 * @param places how many may be inside
 * @param queue how many may wait
 */
export const createGate = (places: number, queue: number): Gate => {
  let inside = 0;
  const waiting: ((entry: Entry) => void)[] = [];

  const admit = (): Entry => {
    inside += 1;
    return {
      kind: 'entered',
      leave: () => {
        inside -= 1;
        waiting.shift()?.(admit());
      },
    };
  };

  const wait = (signal: AbortSignal): Promise<Entry> =>
    new Promise((resolve) => {
      const giveUp = (): void => {
        waiting.splice(waiting.indexOf(proceed), 1);
        resolve({ kind: 'aborted' });
      };
      const proceed = (entry: Entry): void => {
        signal.removeEventListener('abort', giveUp);
        resolve(entry);
      };
      signal.addEventListener('abort', giveUp, { once: true });
      waiting.push(proceed);
    });

  return {
    enter: async (signal) => {
      if (signal.aborted) return { kind: 'aborted' };
      if (inside < places) return admit();
      return waiting.length < queue ? wait(signal) : { kind: 'full' };
    },
    state: () => ({ inside, waiting: waiting.length }),
  };
};
