import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Position } from '../../../engine/harp/setting.ts';
import type { Need } from '../../../engine/plan/needs.ts';
import { type MoveToPlace, placeMoves } from '../../../engine/plan/placing.ts';
import { courseOf } from '../../../engine/plan/positions.ts';

const TOO_SOON = 1000;
const REST = 2;

/** Every way to give each move a moment of its window, priced by the rules in words: the cheapest sum. */
const cheapestByTrying = (moves: readonly MoveToPlace[], seconds: readonly number[]): number => {
  const windows = moves.map((move) =>
    Array.from({ length: move.close - move.open }, (_, i) => move.open + 1 + i),
  );
  let best = Number.POSITIVE_INFINITY;
  const chosen: number[] = [];
  const tryFrom = (move: number, price: number): void => {
    if (move === moves.length) {
      const times = [...chosen].sort((a, b) => a - b).map((moment) => seconds[moment]!);
      const hurried = times.filter((time, i) => i > 0 && time - times[i - 1]! < REST).length;
      best = Math.min(best, price + hurried * TOO_SOON);
      return;
    }
    for (const moment of windows[move]!) {
      chosen.push(moment);
      tryFrom(move + 1, price + moves[move]!.priceAt(moment));
      chosen.pop();
    }
  };
  tryFrom(0, 0);
  return best;
};

/** Moves of up to three pedals over a dozen moments, the windows of one pedal one after the other. */
const someMoves = fc
  .tuple(
    fc.array(
      fc.record({
        pedal: fc.integer({ min: 0, max: 2 }),
        open: fc.integer({ min: 0, max: 9 }),
        length: fc.integer({ min: 1, max: 4 }),
        prices: fc.array(fc.integer({ min: 0, max: 20 }), { minLength: 16, maxLength: 16 }),
      }),
      { maxLength: 5 },
    ),
    fc.array(fc.integer({ min: 1, max: 3 }), { minLength: 16, maxLength: 16 }),
  )
  .map(([drafts, steps]) => {
    const moves: MoveToPlace[] = [];
    for (const { pedal, open, length, prices } of drafts.sort((a, b) => a.open - b.open)) {
      const before = moves.findLast((move) => move.pedal === pedal);
      if (before !== undefined && before.close > open) continue;
      moves.push({ pedal, open, close: open + length, priceAt: (moment) => prices[moment]! });
    }
    let clock = 0;
    return { moves, seconds: steps.map((step) => (clock += step)) };
  });

describe('placing the moves of one foot', () => {
  it('costs what trying every placing costs', () => {
    fc.assert(
      fc.property(someMoves, ({ moves, seconds }) => {
        expect(placeMoves(moves, seconds, REST, TOO_SOON).cost).toBe(cheapestByTrying(moves, seconds));
      }),
      { numRuns: 2000 },
    );
  });

  it('gives each move a moment of its window', () => {
    fc.assert(
      fc.property(someMoves, ({ moves, seconds }) => {
        placeMoves(moves, seconds, REST, TOO_SOON).moments.forEach((moment, i) => {
          expect(moment).toBeGreaterThan(moves[i]!.open);
          expect(moment).toBeLessThanOrEqual(moves[i]!.close);
        });
      }),
    );
  });
});

const needOf = (position: Position): Need => ({ position }) as unknown as Need;

/** The fewest moves that serve all but the fewest needs, by trying every course over the three positions. */
const bestCourseByTrying = (groups: readonly (readonly Position[])[]): readonly [number, number] => {
  let best: readonly [number, number] = [Number.POSITIVE_INFINITY, 0];
  const tryFrom = (i: number, at: Position | null, unmet: number, moves: number): void => {
    if (i === groups.length) {
      if (unmet < best[0] || (unmet === best[0] && moves < best[1])) best = [unmet, moves];
      return;
    }
    for (const next of [-1, 0, 1] as const) {
      const missed = groups[i]!.filter((position) => position !== next).length;
      tryFrom(i + 1, next, unmet + missed, moves + (at === null || at === next ? 0 : 1));
    }
  };
  tryFrom(0, null, 0, 0);
  return best;
};

describe('the course of one pedal', () => {
  it('leaves as few needs unmet, and then makes as few moves, as any course', () => {
    const position = fc.constantFrom<Position>(-1, 0, 1);
    fc.assert(
      fc.property(fc.array(fc.array(position, { minLength: 1, maxLength: 3 }), { maxLength: 6 }), (groups) => {
        const placed = groups.flatMap((group, moment) => group.map((p) => ({ need: needOf(p), moment })));
        const course = courseOf(placed, 0);
        expect([course.unserved.length, course.moves.length]).toEqual(
          groups.length === 0 ? [0, 0] : bestCourseByTrying(groups),
        );
      }),
      { numRuns: 1000 },
    );
  });
});
