import { drawSheets, packSections } from '../sheets/fill-sheets.ts';
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
export const fillWall = ({ sheets, write }: WallTable, sheet: Sheet): readonly string[] => {
  const tried = SIZES.map((size) => enlargeLetters(sheet, size));
  for (const each of tried) {
    const section = write(each);
    if (section.leastWidthMm > each.widthMm) continue;
    const packed = packSections([section], each);
    if (packed.sheets.length <= sheets) return drawSheets(packed, each);
  }
  // On the smallest of papers it goes on over more sheets.
  return drawSheets(packSections([write(tried.at(-1)!)], tried.at(-1)!), tried.at(-1)!);
};
