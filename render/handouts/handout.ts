import type { NoteNaming } from '../markings/note-names.ts';
import type { Section } from '../sheets/fill-sheets.ts';
import type { Sheet } from '../sheets/sheet.ts';

/** What stands on sheets of a wall chart that hang side by side, in letters of one size. */
export interface WallTable {
  /** On how many sheets it may stand: the fewer, the smaller. */
  readonly sheets: number;
  /** Whether what a sheet holds stands over all of its height: not if a paragraph could be parted. */
  readonly isSpread?: boolean;
  readonly write: (sheet: Sheet) => WallSection;
}

/** A section that is set as large as its sheets allow. */
export interface WallSection extends Section {
  /** What it must have to break no word and to let no column meet another, in millimetres. */
  readonly leastWidthMm: number;
}

/** Works out what stands on a wall chart; each table begins a new sheet. */
export type WriteHandout = (naming: NoteNaming) => readonly WallTable[];
