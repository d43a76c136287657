import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rational } from '../../../engine/music/rational.ts';
import { formatBeat, formatBeatText } from '../../../engine/words/format-beat.ts';

describe('a beat is told as people say it', () => {
  it.each([
    [1, 1, '1'],
    [9, 2, '4½'],
    [5, 4, '1¼'],
    [7, 3, '2⅓'],
    [23, 8, '2⅞'],
    [22, 5, '4 2/5'],
    [15, 7, '2 1/7'],
    [1, 2, '½'],
    [0, 1, '0'],
    [-1, 2, '-½'],
  ])('%i/%i: %s', (num, den, told) => {
    expect(formatBeat(rational(num, den))).toBe(told);
  });

  it.each([
    [597, 256, '2⅓'],
    [1177, 256, '4 3/5'],
    [341, 1024, '⅓'],
    [2047, 1024, '2'],
    [29, 24, '1 1/5'],
    [11, 32, '⅓'],
    [33, 32, '1 1/32'],
    [25, 24, '1 1/24'],
    [3, 16, '3/16'],
    [121, 960, '⅛'],
    [-597, 256, '-2⅓'],
  ])('%i/%i, a program’s ticks, is %s', (num, den, told) => {
    expect(formatBeat(rational(num, den))).toBe(told);
  });

  it('as the notes at the place have it, where they share a simple one', () => {
    const ticks = rational(49, 256);
    expect(formatBeat(ticks)).toBe('1/5');
    expect(formatBeat(ticks, [rational(0), rational(3, 16), rational(1, 4)])).toBe('3/16');
    expect(formatBeat(ticks, [rational(0), ticks, rational(1, 4)])).toBe('1/5');
    expect(formatBeat(rational(3, 16), [rational(1, 5)])).toBe('3/16');
  });

  it('never in more parts than music has, and never a 64th of a beat off', () => {
    const beats = fc.tuple(
      fc.integer({ min: 1, max: 1_000_000_000 }),
      fc.integer({ min: 1, max: 1_000_000 }),
    );
    fc.assert(
      fc.property(beats, ([num, den]) => {
        const [, whole = '', sign = '', parts = '0', of = '1'] = /^(\d+)?([^\d ])? ?(?:(\d+)\/(\d+))?$/u.exec(
          formatBeat(rational(num, den)),
        )!;
        const fraction =
          sign === '' ? [Number(parts), Number(of)] : sign.normalize('NFKC').split('⁄').map(Number);
        expect(fraction[1]).toBeLessThanOrEqual(32);
        expect(Math.abs(Number(whole) + fraction[0]! / fraction[1]! - num / den)).toBeLessThan(1 / 64 + 1e-6);
      }),
    );
  });

  it('also from an exact fraction in text; other text stays as it is', () => {
    expect(['9/2', '3', '', '4/0', 'x/2'].map(formatBeatText)).toEqual(['4½', '3', '', '4/0', 'x/2']);
  });
});
