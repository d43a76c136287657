import { type Block, drawBlocks, emptySpace, heightOf } from './block.ts';
import { writeNotesLines } from './notes-page.ts';
import type { Sheet } from './sheet.ts';

/** A stretch of sheets: what stands on them one under the other. */
export interface Section {
  readonly blocks: readonly Block[];
  /** What is repeated at the top of every further sheet, such as the head of a table; null for nothing. */
  readonly repeated: Block | null;
  /** Not parted between two sheets where one has room for it. */
  readonly staysWhole?: boolean;
  /** Where a good part of its last sheet stays free, there are lines to write on. */
  readonly endsInNotes?: boolean;
}

/**
 * Sets blocks on as few sheets as they need, each as high as there is room. A block that is higher than a sheet gets one
 * of its own.
 *
 * @returns the drawing of each sheet, at least one
 */
export const fillSheets = (section: Section, sheet: Sheet): readonly string[] =>
  drawSheets(packSections([section], sheet), sheet);

/** Where something begins on sheets. */
export interface SheetPlace {
  /** Index of the sheet. */
  readonly sheet: number;
  readonly topMm: number;
}

/** Several sections on sheets: what stands on each sheet, and where each section begins. */
export interface PackedSheets {
  readonly sheets: readonly (readonly Block[])[];
  readonly starts: readonly SheetPlace[];
}

/** Between two sections on one sheet, in ems. */
const SECTION_GAP_EM = 2.4;
/** A table that goes on over the sheet begins on one with at least so much room, else on a new one. */
const LEAST_FOR_TABLE = 0.4;
/** The same for what has no head to be repeated. */
const LEAST_FOR_OTHERS = 0.2;
/** So much free of a sheet is worth lines to write on. */
const LEAST_FOR_NOTES = 0.25;

/**
 * Sets sections one after the other: a short one begins under the one before if it fits there, and a long one where a
 * good part of the sheet is free.
 *
 * @returns no sheet for no sections
 */
export const packSections = (sections: readonly Section[], sheet: Sheet): PackedSheets => {
  const sheets: Block[][] = [];
  let used = Number.POSITIVE_INFINITY;
  let endsInNotes = false;
  const closeSheet = (): void => {
    const free = sheet.heightMm - used - SECTION_GAP_EM * sheet.emMm;
    if (!endsInNotes || free < LEAST_FOR_NOTES * sheet.heightMm) return;
    sheets.at(-1)!.push(emptySpace(SECTION_GAP_EM * sheet.emMm), ...writeNotesLines(sheet, free));
  };
  const starts = sections.map((section): SheetPlace => {
    const { blocks, repeated, staysWhole = false } = section;
    const gap = emptySpace(SECTION_GAP_EM * sheet.emMm);
    const room = sheet.heightMm - used - gap.heightMm;
    const runs = joinRuns(blocks);
    const height = heightOf(blocks);
    const mayPart = !staysWhole || height > sheet.heightMm;
    const least = (repeated === null ? LEAST_FOR_OTHERS : LEAST_FOR_TABLE) * sheet.heightMm;
    const goesOn = mayPart && room >= least && heightOf(runs[0] ?? []) <= room;
    const isBegun = height <= room || goesOn;
    if (isBegun) {
      sheets.at(-1)!.push(gap);
      used += gap.heightMm;
    } else {
      closeSheet();
      sheets.push([]);
      used = 0;
    }
    endsInNotes = section.endsInNotes ?? false;
    const start = { sheet: sheets.length - 1, topMm: used === 0 ? 0 : sheet.marginMm + used };
    const top = repeated === null ? [] : [repeated];
    for (const run of runs) {
      const runHeight = heightOf(run);
      if (used > 0 && used + runHeight > sheet.heightMm) {
        sheets.push([...top]);
        used = heightOf(top);
      }
      sheets.at(-1)!.push(...run);
      used += runHeight;
    }
    return start;
  });
  closeSheet();
  return { sheets, starts };
};

export const drawSheets = ({ sheets }: PackedSheets, { marginMm }: Sheet): readonly string[] =>
  sheets.map((blocks) => drawBlocks(blocks, marginMm, marginMm));

/** Blocks that stay together: a heading with what is under it. */
export const joinRuns = (blocks: readonly Block[]): readonly (readonly Block[])[] => {
  const runs: Block[][] = [];
  let open = false;
  for (const block of blocks) {
    if (open) runs.at(-1)!.push(block);
    else runs.push([block]);
    open = block.keepsWithNext === true;
  }
  return runs;
};
