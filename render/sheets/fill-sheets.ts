import { type Block, drawBlocks } from './block.ts';
import type { Sheet } from './sheet.ts';

/** A stretch of sheets: what stands on them one under the other. */
export interface Section {
  readonly blocks: readonly Block[];
  /** What is repeated at the top of every further sheet, such as the head of a table; null for nothing. */
  readonly repeated: Block | null;
}

/**
 * Sets blocks on as few sheets as they need, each as high as there is room. A block that is higher than a sheet gets one
 * of its own.
 *
 * @returns the drawing of each sheet, at least one
 */
export const fillSheets = ({ blocks, repeated }: Section, sheet: Sheet): readonly string[] => {
  const sheets: Block[][] = [[]];
  const top = repeated === null ? [] : [repeated];
  let used = 0;
  for (const run of joinRuns(blocks)) {
    const height = heightOf(run);
    if (used > 0 && used + height > sheet.heightMm) {
      sheets.push([...top]);
      used = heightOf(top);
    }
    sheets.at(-1)!.push(...run);
    used += height;
  }
  return sheets.map((each) => drawBlocks(each, sheet.marginMm, sheet.marginMm));
};

/** Blocks that stay together: a heading with what is under it. */
const joinRuns = (blocks: readonly Block[]): readonly (readonly Block[])[] => {
  const runs: Block[][] = [];
  let open = false;
  for (const block of blocks) {
    if (open) runs.at(-1)!.push(block);
    else runs.push([block]);
    open = block.keepsWithNext === true;
  }
  return runs;
};

const heightOf = (blocks: readonly Block[]): number =>
  blocks.reduce((sum, { heightMm }) => sum + heightMm, 0);
