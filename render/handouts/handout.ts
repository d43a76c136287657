import type { NoteNaming } from '../markings/note-names.ts';
import type { Section } from '../sheets/fill-sheets.ts';
import type { Sheet } from '../sheets/sheet.ts';

/** Works out what stands on a wall chart; each section begins a new sheet. */
export type WriteHandout = (sheet: Sheet, naming: NoteNaming) => readonly Section[];
