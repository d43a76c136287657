import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type FitTask,
  fitPages,
  heightInSteps,
  type PageEnd,
  type PossibleLine,
  STEPS,
} from '../../../render/layout/breaks/total-fit.ts';

/** Every way to break a part: lines by their first bars, each on the same page as the line before it or on a new one. */
const allWays = ({ bars, linesFrom }: FitTask, bar = 0): { line: PossibleLine; first: number }[][] =>
  bar === bars
    ? [[]]
    : linesFrom(bar).flatMap((line) =>
        allWays({ bars, linesFrom } as FitTask, line.until).map((rest) => [{ line, first: bar }, ...rest]),
      );

/** The least cost of setting lines on pages, by trying every division; a page may not be overfull. */
const cheapestPages = (
  task: FitTask,
  lines: readonly { readonly line: PossibleLine; readonly first: number }[],
): number => {
  let best = Number.POSITIVE_INFINITY;
  for (let choice = 0; choice < 2 ** (lines.length - 1); choice += 1) {
    let used = task.heading <= 0 ? 0 : heightInSteps(task.heading, task.room);
    let page = 1;
    let cost = 0;
    lines.forEach(({ line, first }, i) => {
      const steps = heightInSteps(line.height, task.room);
      if (i > 0 && (choice >> (i - 1)) & 1) {
        cost += task.pageCost({ isOdd: page % 2 === 1, filled: used / STEPS, next: first });
        page += 1;
        if (i === lines.length - 1) cost += task.loneLast;
        used = steps;
      } else {
        if (i > 0 && used + steps > STEPS) cost = Number.POSITIVE_INFINITY;
        used = Math.min(STEPS, used + steps);
      }
      cost += line.cost;
    });
    best = Math.min(best, cost + task.pageCost({ isOdd: page % 2 === 1, filled: used / STEPS, next: null }));
  }
  return best;
};

const cheapest = (task: FitTask): number =>
  Math.min(...allWays(task).map((lines) => cheapestPages(task, lines)));

const taskOf = (
  lines: readonly (readonly { readonly bars: number; readonly cost: number; readonly height: number }[])[],
  turns: readonly number[],
  heading: number,
): FitTask => ({
  bars: lines.length,
  linesFrom: (bar) =>
    lines[bar]!.map(({ bars, cost, height }) => ({
      until: Math.min(lines.length, bar + bars),
      cost,
      height,
    })),
  room: 10,
  heading,
  pageCost: ({ filled, isOdd, next }: PageEnd) =>
    0.5 + (1 - filled) ** 2 + (next !== null && isOdd ? turns[next]! : 0),
  loneLast: 0.4,
});

describe('breaking a part', () => {
  it('costs the least of all ways to break it into lines and pages', () => {
    const line = fc.record({
      bars: fc.integer({ min: 1, max: 3 }),
      cost: fc.double({ min: 0, max: 2, noNaN: true }),
      height: fc.double({ min: 0.5, max: 11, noNaN: true }),
    });
    fc.assert(
      fc.property(
        fc.array(fc.array(line, { minLength: 1, maxLength: 3 }), { minLength: 1, maxLength: 8 }),
        fc.array(fc.double({ min: 0, max: 2, noNaN: true }), { minLength: 9, maxLength: 9 }),
        fc.double({ min: 0, max: 9, noNaN: true }),
        (lines, turns, heading) => {
          const task = taskOf(lines, turns, heading);
          expect(fitPages(task).cost).toBeCloseTo(cheapest(task), 9);
        },
      ),
    );
  });

  it('gives lines and pages of the cost that it says', () => {
    const line = { cost: 0.25, height: 3 };
    const task = taskOf(
      Array.from({ length: 12 }, () => [{ ...line, bars: 2 }]),
      Array(13).fill(0),
      2,
    );
    const { cost, pages, systems } = fitPages(task);
    expect(systems).toEqual([0, 2, 4, 6, 8, 10]);
    expect(pages[0]).toBe(0);
    expect(pages.every((bar) => systems.includes(bar))).toBe(true);
    const told = systems.map((first) => ({ first, line: task.linesFrom(first)[0]! }));
    expect(cost).toBeCloseTo(cheapestPages(task, told), 9);
  });
});
