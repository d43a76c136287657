import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dividePages, type PageTurn, turnCost, turnRater } from '../../render/layout/breaks/page-turns.ts';
import { smallPart } from '../part-builder.ts';

const systems = (heights: readonly number[]) => heights.map((height, i) => ({ firstBar: i * 4, height }));

/** Page ends are good before the bars named, bad elsewhere. */
const rateBy =
  (good: readonly number[]) =>
  (page: number, bar: number): PageTurn => ({
    page,
    bar,
    free: good.includes(bar) ? 'both-hands' : 'none',
    seconds: good.includes(bar) ? 3 : 0,
  });

const ROOM = { first: 4, others: 5 };

describe('pages are divided', () => {
  it('full, where no turn is better than another', () => {
    expect(dividePages(systems(Array(9).fill(1)), ROOM, rateBy([]), 'every-page')).toEqual([0, 4]);
  });

  it('before a rest, where one is near the end of a page', () => {
    expect(dividePages(systems(Array(8).fill(1)), ROOM, rateBy([12]), 'every-page')).toEqual([0, 3]);
  });

  it('without regard to rests at the ends of left-hand pages of a bound part', () => {
    const divided = dividePages(systems(Array(13).fill(1)), ROOM, rateBy([12, 28]), 'right-hand-pages');
    // Page 1 ends at the rest before bar 12; page 2 is a left-hand page and is filled past the rest before bar 28.
    expect(divided).toEqual([0, 3, 8]);
  });

  it('not at all where a line is higher than a page', () => {
    expect(dividePages(systems([1, 7, 1]), ROOM, rateBy([]), 'every-page')).toBeNull();
  });

  it('so that every page holds what is put on it, and no division has better turns at the price of nothing', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 3 }), { minLength: 1, maxLength: 9 }),
        fc.uniqueArray(fc.integer({ min: 1, max: 9 }).map((i) => i * 4)),
        (heights, good) => {
          const lines = systems(heights);
          const starts = dividePages(lines, ROOM, rateBy(good), 'every-page')!;
          expect(starts[0]).toBe(0);
          starts.forEach((start, i) => {
            const height = heights.slice(start, starts[i + 1]).reduce((sum, each) => sum + each, 0);
            expect(height).toBeLessThanOrEqual(i === 0 ? ROOM.first : ROOM.others);
          });
          expect(costOf(heights, starts, good)).toBeCloseTo(cheapest(heights, good), 9);
        },
      ),
    );
  });
});

/** The price of a division, added up anew. */
const costOf = (heights: readonly number[], starts: readonly number[], good: readonly number[]): number =>
  starts.reduce((sum, start, i) => {
    const next = starts[i + 1];
    const space = i === 0 ? ROOM.first : ROOM.others;
    const height = heights.slice(start, next).reduce((total, each) => total + each, 0);
    if (next === undefined) return sum + 0.5;
    return sum + 0.5 + 1.5 * (1 - Math.min(1, height / space)) ** 2 + (good.includes(next * 4) ? 0 : 1);
  }, 0);

/** By trying every division. */
const cheapest = (heights: readonly number[], good: readonly number[]): number => {
  let best = Number.POSITIVE_INFINITY;
  for (let choice = 0; choice < 2 ** (heights.length - 1); choice += 1) {
    const starts = [0, ...heights.map((_, i) => i).filter((i) => i > 0 && (choice >> (i - 1)) & 1)];
    const fits = starts.every(
      (start, i) =>
        heights.slice(start, starts[i + 1]).reduce((sum, each) => sum + each, 0) <=
        (i === 0 ? ROOM.first : ROOM.others),
    );
    if (fits) best = Math.min(best, costOf(heights, starts, good));
  }
  return best;
};

describe('a page turn', () => {
  const rate = turnRater(
    smallPart({ upper: 'C4/4 | r/4 | C4/4 | C4/4 | C4/4', lower: 'C2/4 | r/4 | C2/4 | r/4 | C2/4' }),
  );

  it('has both hands free in a rest of both staves', () => {
    expect(rate(1, 1)).toMatchObject({ page: 1, bar: 1, free: 'both-hands', seconds: 4 });
    expect(rate(1, 2)).toMatchObject({ free: 'both-hands', seconds: 4 });
  });

  it('has one hand free where one staff rests', () => {
    expect(rate(1, 3)).toMatchObject({ free: 'one-hand', seconds: 4 });
  });

  it('has none free where both play on, or a note is held over the bar line', () => {
    const held = turnRater(smallPart({ upper: 'C4/4 | ~C4/4', lower: 'C2/4 | C2/4' }));
    expect(held(1, 1)).toMatchObject({ free: 'none', seconds: 0 });
  });

  it('costs nothing on a rest, less with one hand than with none', () => {
    expect(turnCost([0, 1], rate, 'every-page')).toBe(0);
    expect(turnCost([0, 3], rate, 'every-page')).toBeGreaterThan(0);
    const held = turnRater(smallPart({ upper: 'C4/4 | C4/4', lower: 'C2/4 | C2/4' }));
    expect(turnCost([0, 1], held, 'every-page')).toBeGreaterThan(turnCost([0, 3], rate, 'every-page'));
    expect(turnCost([0, 1], held, 'anywhere')).toBe(0);
  });
});
