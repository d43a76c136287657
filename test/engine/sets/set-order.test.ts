import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { groupBySetting, orderSet, tunesTogether } from '../../../engine/sets/set-order.ts';
import type { TuneLevers } from '../../../engine/sets/tune-levers.ts';
import { cases } from '../../thorough.ts';

/** A tune by the levers it needs: `F4+` up, `F4-` down, `F4+-` up at the start and down at the end. */
const tune = (needs: string): TuneLevers => {
  const strings = needs.split(' ').filter((need) => need !== '');
  const read = (at: 0 | -1) =>
    new Map(strings.map((need) => [need.slice(0, 2), need.slice(2).at(at) === '+'] as const));
  const open = new Map(strings.map((need) => [need.slice(0, 2), 0] as const));
  return { first: read(0), last: read(-1), open };
};

/** Lever changes of one order, counted by playing it. */
const countChanges = (tunes: readonly TuneLevers[], order: readonly number[]): number => {
  const levers = new Map<string, boolean>();
  let changes = 0;
  for (const index of order) {
    for (const [string, up] of tunes[index]!.first) if ((levers.get(string) ?? up) !== up) changes += 1;
    for (const each of [tunes[index]!.first, tunes[index]!.last])
      for (const [string, up] of each) levers.set(string, up);
  }
  return changes;
};

const permutations = (items: readonly number[]): readonly (readonly number[])[] =>
  items.length <= 1
    ? [items]
    : items.flatMap((item) =>
        permutations(items.filter((other) => other !== item)).map((rest) => [item, ...rest]),
      );

const TUNES = fc.array(
  fc
    .array(fc.constantFrom('', '+', '-', '+-', '-+'), { minLength: 4, maxLength: 4 })
    .map((ways) => tune(ways.map((way, i) => (way === '' ? '' : `${'CDFG'[i]}4${way}`)).join(' '))),
  { minLength: 1, maxLength: 6 },
);

describe('a set of tunes', () => {
  it('is played in the order that needs the fewest changes, and no other needs fewer', () => {
    fc.assert(
      fc.property(TUNES, (tunes) => {
        const { order, changes, breaks } = orderSet(tunes);
        const least = Math.min(
          ...permutations(tunes.map((_, i) => i)).map((each) => countChanges(tunes, each)),
        );
        expect(changes).toBe(least);
        expect(countChanges(tunes, order)).toBe(least);
        expect(order.toSorted()).toEqual(tunes.map((_, i) => i));
        expect(breaks).toHaveLength(tunes.length);
      }),
      { numRuns: cases(120) },
    );
  });

  it('puts the tune between that two others meet in', () => {
    const set = orderSet([tune('C4+ F4+'), tune('C4- F4-'), tune('C4+ F4-')]);
    expect(set.order).toEqual([0, 2, 1]);
    expect(set.changes).toBe(2);
  });

  it('remembers a lever over a tune that leaves it alone', () => {
    const set = orderSet([tune('F4+'), tune('C4+'), tune('F4-')]);
    expect(set.changes).toBe(1);
    expect(set.breaks.slice(1).flat()).toEqual([{ string: 'F4', up: false, pitch: 'F♮4' }]);
  });

  it('counts from where a tune leaves its levers', () => {
    expect(orderSet([tune('F4+-'), tune('F4-')])).toMatchObject({ order: [0, 1], changes: 0 });
    expect(orderSet([tune('F4-'), tune('F4+-')])).toMatchObject({ order: [1, 0], changes: 0 });
  });

  it('of twelve tunes is found, of thirteen refused', () => {
    const many = Array.from({ length: 12 }, (_, i) =>
      tune(`C4${i % 2 ? '+' : '-'} D4${i % 3 ? '+' : '-'} F4${i % 5 ? '+' : '-'}`),
    );
    expect(orderSet(many).order).toHaveLength(12);
    expect(() => orderSet([...many, tune('C4+')])).toThrow(RangeError);
    expect(orderSet([])).toEqual({ order: [], breaks: [], changes: 0 });
  });
});

describe('tunes in one setting', () => {
  it('are those whose levers agree, without one that changes as it goes', () => {
    expect(groupBySetting([tune('C4+'), tune('C4-'), tune('F4+'), tune('C4+-'), tune('C4- G4+')])).toEqual([
      [0, 2],
      [1, 4],
    ]);
  });
});

describe('tunes that fit together', () => {
  it('have their strings tuned alike: a lever up gives another note on a string that is tuned otherwise', () => {
    const levers = tune('F4+ C4-');
    const together = (...tunings: readonly string[]) =>
      tunesTogether(tunings.map((tuning) => ({ tuning, levers })));
    expect(together('E♭ major', 'E♭ major')).toEqual([[0, 1]]);
    expect(together('E♭ major', 'C major')).toEqual([]);
    expect(together('C major', 'E♭ major', 'C major', 'E♭ major', 'C major')).toEqual([
      [0, 2, 4],
      [1, 3],
    ]);
  });
});
