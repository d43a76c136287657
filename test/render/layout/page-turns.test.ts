import { describe, expect, it } from 'vitest';
import { pageCoster } from '../../../render/layout/breaks/break-costs.ts';
import { turnCost, turnRater } from '../../../render/layout/breaks/page-turns.ts';
import { smallPart } from '../../part-builder.ts';

describe('a page turn', () => {
  const rate = turnRater(
    smallPart({
      upper: 'C4/4 | r/4 | C4/4 | C4/4 | C4/4 | C4/4',
      lower: 'C2/4 | r/4 | C2/4 | r/4 | C2/4 | C2/4',
    }),
  );

  it('has both hands free in a rest of both staves', () => {
    expect(rate(1)).toEqual({ bar: 1, free: 'both-hands', seconds: 4 });
    expect(rate(2)).toEqual({ bar: 2, free: 'both-hands', seconds: 4 });
  });

  it('has one hand free where one staff rests', () => {
    expect(rate(3)).toEqual({ bar: 3, free: 'one-hand', seconds: 4 });
  });

  it('has none free where both play on, or a note is held over the bar line', () => {
    expect(rate(5)).toMatchObject({ free: 'none', seconds: 0 });
    const held = turnRater(smallPart({ upper: 'C4/4 | ~C4/4', lower: 'C2/4 | C2/4' }));
    expect(held(1)).toMatchObject({ free: 'none', seconds: 0 });
  });

  it('has all the time there is after the last note', () => {
    const after = turnRater(smallPart({ upper: 'C4/4 | r/4', lower: 'C2/4 | r/4' }));
    expect(after(1)).toEqual({ bar: 1, free: 'both-hands', seconds: Number.POSITIVE_INFINITY });
  });

  it('costs nothing in a long rest, more in a short one, with one hand and with none', () => {
    const costs = [
      turnCost({ free: 'both-hands', seconds: Number.POSITIVE_INFINITY }),
      turnCost(rate(1)),
      turnCost({ free: 'both-hands', seconds: 1.6 }),
      turnCost(rate(3)),
      turnCost(rate(5)),
    ];
    expect(costs.slice(0, 2)).toEqual([0, 0]);
    for (let i = 2; i < costs.length; i += 1) expect(costs[i]).toBeGreaterThan(costs[i - 1]!);
  });

  it('in a rest is worth a page more and a page half as full; one with one hand free is worth no such page', () => {
    const cost = pageCoster('right-hand-pages', rate, (bar) => bar);
    const left = (filled: number): number => cost({ isOdd: false, filled, next: 2 });
    const turned = (filled: number, next: number): number => cost({ isOdd: true, filled, next });
    const [rest, oneHand, playing] = [1, 3, 5];
    expect(turned(0.5, rest) + left(0.9)).toBeLessThan(turned(1, playing));
    expect(turned(0.5, rest) + left(0.9)).toBeGreaterThan(turned(1, oneHand));
  });

  it('for which no hand is free has a full page before it: the short one is another', () => {
    const cost = pageCoster('right-hand-pages', rate, (bar) => bar);
    const pair = (turned: number, left: number): number =>
      cost({ isOdd: true, filled: turned, next: 5 }) + cost({ isOdd: false, filled: left, next: 5 });
    expect(pair(0.8, 0.6)).toBeLessThan(pair(0.6, 0.8));
  });
});
