import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Comer, createGate, type GateEntry } from '../../../server/threads/queue-gate.ts';

const forEver = new AbortController().signal;

const ANY = Number.POSITIVE_INFINITY;

const hurried = (cost = 0): Comer => ({ cost, patience: 'turned-away' });

describe('a gate', () => {
  it('never lets in more than it has places for, and serves all who could wait, in order where they cost the same', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.integer({ min: 1, max: 4 }),
        fc.integer({ min: 0, max: 4 }),
        fc.integer({ min: 0, max: 12 }),
        async (places, queue, comers) => {
          const gate = createGate(
            Array.from({ length: places }, () => ANY),
            queue,
          );
          const served: number[] = [];
          let inside = 0;
          let most = 0;
          await Promise.all(
            Array.from({ length: comers }, async (_, index) => {
              const entry = await gate.enter(forEver, hurried());
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
    expect(await createGate([ANY], 1).enter(AbortSignal.abort(), hurried())).toEqual({ kind: 'aborted' });
  });

  it('gives the place of one who gives up waiting to the next', async () => {
    const gate = createGate([ANY], 2);
    const first = await gate.enter(forEver, hurried());
    const impatient = new AbortController();
    const second = gate.enter(impatient.signal, hurried());
    const third = gate.enter(forEver, hurried());
    impatient.abort();
    expect(await second).toEqual({ kind: 'aborted' });
    if (first.kind === 'entered') first.leave();
    expect(await third).toMatchObject({ kind: 'entered' });
    expect(gate.state()).toEqual({ inside: 1, waiting: 0 });
  });
});

describe('a gate where some cost more', () => {
  /** Lets comers in one at a time, all there at once unless their time is given; says in which order they went. */
  const orderOf = async (
    comers: readonly { readonly name: string; readonly cost: number; readonly at?: number }[],
  ) => {
    let time = 0;
    const gate = createGate([ANY], 100, () => time);
    const first = await gate.enter(forEver, hurried());
    const order: string[] = [];
    const all = comers.map(async ({ name, cost, at = 0 }) => {
      time = at;
      const entry = await gate.enter(forEver, hurried(cost));
      if (entry.kind !== 'entered') throw new Error(entry.kind);
      order.push(name);
      entry.leave();
    });
    if (first.kind === 'entered') first.leave();
    await Promise.all(all);
    return order.join(' ');
  };

  it('lets a cheap one pass those that are dear', async () => {
    expect(
      await orderOf([
        { name: 'dear', cost: 9_000 },
        { name: 'dearer', cost: 20_000 },
        { name: 'cheap', cost: 50 },
      ]),
    ).toBe('cheap dear dearer');
  });

  it('lets a dear one wait no longer than it will be inside, however many cheap ones come', async () => {
    const cheap = [900, 1_900, 2_900].map((at) => ({ name: `${at}`, cost: 50, at }));
    expect(await orderOf([{ name: 'dear', cost: 2_000 }, ...cheap])).toBe('900 1900 dear 2900');
  });

  it('keeps a place free of those that are dear, and the other for them as long as it can', async () => {
    const gate = createGate([100, ANY], 10);
    const enter = (cost: number) => gate.enter(forEver, hurried(cost));
    const cheap = await enter(50);
    const dear = await enter(5_000);
    expect([cheap.kind, dear.kind]).toEqual(['entered', 'entered']);
    let late: GateEntry | null = null;
    const waiting = enter(5_000).then((entry) => {
      late = entry;
    });
    const small = enter(20);
    if (cheap.kind === 'entered') cheap.leave();
    // The place of the cheap one goes to a cheap one, though the dear one came before.
    expect(await small).toMatchObject({ kind: 'entered' });
    expect(late).toBeNull();
    if (dear.kind === 'entered') dear.leave();
    await waiting;
    expect(late).toMatchObject({ kind: 'entered' });
  });
});
