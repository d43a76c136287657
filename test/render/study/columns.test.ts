import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { breakLines, type Stretch, stretchOf } from '../../../render/study/lines/columns.ts';

const stretchesOf = (widths: readonly number[]): readonly Stretch[] =>
  widths.map((widthEm, bar) => stretchOf(bar, [], widthEm));

const widthsOf = (lines: readonly (readonly Stretch[])[]): readonly number[] =>
  lines.map((line) => line.reduce((sum, { widthEm }) => sum + widthEm, 0));

describe('bars in lines', () => {
  it('leave no bar alone in the last one where two lines could share them', () => {
    expect(breakLines(stretchesOf([10, 10, 10, 10]), 30).map((line) => line.length)).toEqual([2, 2]);
  });

  it('are as wide as their numbers need where no count falls into them, as into an upbeat of a quaver', () => {
    expect(stretchOf(0, [], 1.5).widthEm).toBe(1.5);
  });

  it('keep their order and their number of lines, and none is wider than the sheet', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 40 }), { minLength: 1, maxLength: 40 }), (widths) => {
        const lines = breakLines(stretchesOf(widths), 40);
        expect(lines.flat().map(({ from }) => from)).toEqual(widths.map((_, i) => i));
        expect(Math.max(...widthsOf(lines))).toBeLessThanOrEqual(40);
        // Each as full as it can be: no fewer lines than that.
        let [fewest, used] = [0, Number.POSITIVE_INFINITY];
        for (const width of widths) {
          if (used + width > 40) [fewest, used] = [fewest + 1, 0];
          used += width;
        }
        expect(lines).toHaveLength(fewest);
      }),
    );
  });
});
