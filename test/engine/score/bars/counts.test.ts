import { describe, expect, it } from 'vitest';
import { add, rational } from '../../../../engine/music/rational.ts';
import { countBars, tempoUnit } from '../../../../engine/score/bars/counts.ts';
import type { Bar } from '../../../../engine/score/model/bar.ts';

/** Bars of one metre by their lengths in eighths. */
const barsOf = (beats: number, beatUnit: number, ...eighths: readonly number[]): readonly Bar[] => {
  let onset = 0;
  return eighths.map((length, index) => {
    const bar: Bar = {
      index,
      number: `${index}`,
      id: `b${index}`,
      span: { start: 0, end: 0 },
      onset: rational(onset, 2),
      duration: rational(length, 2),
      meter: { beats, beatUnit },
      keyFifths: 0,
      repeat: { start: false, endTimes: 0, endings: [], jumps: [] },
    };
    onset += length;
    return bar;
  });
};

const counted = (bars: readonly Bar[], movements: readonly number[] = []) =>
  countBars({ bars, movements, texts: [] }).map(({ counts }) => counts.map(({ count }) => count));

describe('counts over the music', () => {
  it('are those of the metre, two in 6/8', () => {
    expect(counted(barsOf(4, 4, 8, 8))).toEqual([
      [1, 2, 3, 4],
      [1, 2, 3, 4],
    ]);
    expect(counted(barsOf(6, 8, 6))).toEqual([[1, 2]]);
  });

  it('of an upbeat are the last of its bar', () => {
    expect(counted(barsOf(4, 4, 2, 8))).toEqual([[4], [1, 2, 3, 4]]);
    expect(counted(barsOf(3, 4, 1, 6))).toEqual([[], [1, 2, 3]]);
    expect(counted(barsOf(6, 8, 1, 6))).toEqual([[], [1, 2]]);
  });

  it('of the upbeat of a later movement are the last of its bar too', () => {
    const bars = [...barsOf(4, 4, 8, 8), ...barsOf(6, 8, 1, 6)];
    expect(counted(bars, [2]).slice(2)).toEqual([[], [1, 2]]);
  });

  it('go on in the rest of a bar that a repeat divides', () => {
    expect(counted(barsOf(4, 4, 2, 8, 6, 2, 8))).toEqual([[4], [1, 2, 3, 4], [1, 2, 3], [4], [1, 2, 3, 4]]);
  });

  it('stand where the counts fall, not where the upbeat begins', () => {
    const [upbeat] = countBars({ bars: barsOf(4, 4, 3, 8), movements: [], texts: [] });
    expect(upbeat!.counts).toEqual([{ at: rational(1, 2), count: 4 }]);
  });

  it('tell of any moment where it falls among them, in an upbeat too', () => {
    const bars = barsOf(6, 8, 1, 6);
    const [upbeat, first] = countBars({ bars, movements: [], texts: [] });
    expect(upbeat!.countAt(bars[0]!.onset)).toEqual(rational(8, 3));
    expect(first!.countAt(add(bars[1]!.onset, rational(3, 2)))).toEqual(rational(2));
  });

  it.each([
    [rational(1), '♩', 1],
    [rational(3, 2), '♩.', 1.5],
    [rational(2), '\u{1d15e}', 2],
    [rational(5, 8), '♩', 1],
  ] as const)('give tempi their note: %o', (length, sign, quarters) => {
    expect(tempoUnit(length)).toMatchObject({ sign, quarters });
  });
});
