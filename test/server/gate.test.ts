import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createGate } from '../../server/threads/queue-gate.ts';

const forEver = new AbortController().signal;

describe('a gate', () => {
  it('never lets in more than it has places for, and serves all who could wait, in order', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.integer({ min: 1, max: 4 }),
        fc.integer({ min: 0, max: 4 }),
        fc.integer({ min: 0, max: 12 }),
        async (places, queue, comers) => {
          const gate = createGate(places, queue);
          const served: number[] = [];
          let inside = 0;
          let most = 0;
          await Promise.all(
            Array.from({ length: comers }, async (_, index) => {
              const entry = await gate.enter(forEver);
              if (entry.kind !== 'entered') return;
              inside += 1;
              most = Math.max(most, inside);
              served.push(index);
              await Promise.resolve();
              inside -= 1;
              entry.leave();
            }),
          );
          expect(most).toBeLessThanOrEqual(places);
          expect(served).toEqual(Array.from({ length: Math.min(comers, places + queue) }, (_, i) => i));
          expect(gate.state()).toEqual({ inside: 0, waiting: 0 });
        },
      ),
    );
  });

  it('turns away a comer whose time is over already', async () => {
    expect(await createGate(1, 1).enter(AbortSignal.abort())).toEqual({ kind: 'aborted' });
  });

  it('gives the place of one who gives up waiting to the next', async () => {
    const gate = createGate(1, 2);
    const first = await gate.enter(forEver);
    const impatient = new AbortController();
    const second = gate.enter(impatient.signal);
    const third = gate.enter(forEver);
    impatient.abort();
    expect(await second).toEqual({ kind: 'aborted' });
    if (first.kind === 'entered') first.leave();
    expect(await third).toMatchObject({ kind: 'entered' });
    expect(gate.state()).toEqual({ inside: 1, waiting: 0 });
  });
});
