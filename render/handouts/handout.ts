import type { NoteNaming } from '../markings/note-names.ts';
import type { Section } from '../sheets/fill-sheets.ts';
import type { Sheet } from '../sheets/sheet.ts';

/** A wall chart that is worked out and belongs to no score. */
export interface Handout {
  readonly title: string;
  /** What it shows, as a sentence for the documentation. */
  readonly description: string;
  /** Each section begins a new sheet. */
  readonly write: (sheet: Sheet, naming: NoteNaming) => readonly Section[];
}
