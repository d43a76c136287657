import { describe, expect, it } from 'vitest';
import { rational } from '../../../engine/music/rational.ts';
import { tellBeat, tellBeatText } from '../../../engine/music/tell-beat.ts';

describe('a beat is told as people say it', () => {
  it.each([
    [1, 1, '1'],
    [9, 2, '4½'],
    [5, 4, '1¼'],
    [7, 3, '2⅓'],
    [23, 8, '2⅞'],
    [22, 5, '4⅖'],
    [15, 7, '2 1/7'],
    [1, 2, '½'],
    [0, 1, '0'],
    [-1, 2, '-½'],
  ])('%i/%i: %s', (num, den, told) => {
    expect(tellBeat(rational(num, den))).toBe(told);
  });

  it('also from an exact fraction in text; other text stays as it is', () => {
    expect(['9/2', '3', '', '4/0', 'x/2'].map(tellBeatText)).toEqual(['4½', '3', '', '4/0', 'x/2']);
  });
});
