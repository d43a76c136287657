import { perObject } from '../memoize.ts';
import type { Note } from './model/note.ts';

/** The notes of a score by their ids. */
export const notesById = perObject(
  (notes: readonly Note[]): ReadonlyMap<string, Note> => new Map(notes.map((note) => [note.id, note])),
);
