import { emptySpace, heightOf } from '../sheets/block.ts';
import { drawSheets, joinRuns, type PackedSheets, packSections } from '../sheets/fill-sheets.ts';
import { enlargeLetters, type Sheet } from '../sheets/sheet.ts';
import type { WallTable } from './handout.ts';

/** Sizes of letters that are tried, as shares of the usual: each a little smaller than the one before. */
const SIZES: readonly number[] = Array.from({ length: 70 }, (_, i) => 4 * 0.97 ** i);

/**
 * Sets a table in the largest letters with which it stands on the sheets that it may have, so that it can be read from
 * as far away as possible.
 *
 * @returns the drawing of each sheet
 */
export const fillWall = ({ sheets, isSpread = false, write }: WallTable, sheet: Sheet): readonly string[] => {
  const tried = SIZES.map((size) => enlargeLetters(sheet, size));
  for (const each of tried) {
    const section = write(each);
    if (section.leastWidthMm > each.widthMm) continue;
    const packed = packSections([section], each);
    if (packed.sheets.length <= sheets) return drawSheets(isSpread ? spread(packed, each) : packed, each);
  }
  // On the smallest of papers it goes on over more sheets.
  return drawSheets(packSections([write(tried.at(-1)!)], tried.at(-1)!), tried.at(-1)!);
};

/** More room than this between what stands on a sheet would part it, as a share of the sheet's height. */
const MOST_BETWEEN = 0.08;

/** What a sheet has room for stands over all of its height. */
const spread = (packed: PackedSheets, { heightMm }: Sheet): PackedSheets => ({
  ...packed,
  sheets: packed.sheets.map((blocks) => {
    const runs = joinRuns(blocks);
    const free = (heightMm - heightOf(blocks)) / Math.max(1, runs.length - 1);
    const gap = emptySpace(Math.max(0, Math.min(free, MOST_BETWEEN * heightMm)));
    return runs.flatMap((run, i) => (i === 0 ? run : [gap, ...run]));
  }),
});
