import fc from 'fast-check';
import { expect, it } from 'vitest';
import { rational, ZERO } from '../../../../engine/music/rational.ts';
import { buildClock } from '../../../../engine/score/bars/clock.ts';
import type { TempoMark } from '../../../../engine/score/model/tempo.ts';

const mark = (at: number, quartersPerMinute: number): TempoMark => ({
  at: rational(at),
  quartersPerMinute,
  origin: 'sound',
});

it('at sixty, a quarter note lasts a second', () => {
  expect(buildClock([mark(0, 60)])(rational(3, 2))).toBe(1.5);
});

it('each tempo holds from its mark on', () => {
  const secondsAt = buildClock([mark(0, 60), mark(4, 120), mark(8, 30)]);
  expect([0, 4, 6, 8, 9].map((at) => secondsAt(rational(at)))).toEqual([0, 4, 5, 6, 8]);
});

it('of two marks at one time the later holds', () => {
  expect(buildClock([mark(0, 60), mark(0, 120)])(rational(2))).toBe(1);
});

it('never runs backwards, and starts at nought', () => {
  const marks = fc.array(fc.tuple(fc.nat(100), fc.integer({ min: 5, max: 500 })), {
    minLength: 1,
    maxLength: 20,
  });
  fc.assert(
    fc.property(marks, fc.nat(200), fc.nat(200), (list, a, b) => {
      const secondsAt = buildClock(list.toSorted((x, y) => x[0] - y[0]).map(([at, rate]) => mark(at, rate)));
      expect(secondsAt(ZERO)).toBe(0);
      const [early, late] = [Math.min(a, b), Math.max(a, b)];
      expect(secondsAt(rational(late))).toBeGreaterThanOrEqual(secondsAt(rational(early)));
    }),
  );
});
