import type { XmlElement } from '../../../engine/index.ts';
import { type Edit, insertAt } from '../../edit.ts';
import { insertBefore } from './insertion.ts';

/** Children of a note from its accidental on, in their order (MusicXML 4.0, `note`). */
const ORDER = [
  'accidental',
  'time-modification',
  'stem',
  'notehead',
  'notehead-text',
  'staff',
  'beam',
  'notations',
  'lyric',
  'play',
  'listen',
] as const;

/** Puts a child where it belongs among those that the note has. */
export const insertNoteChild = (
  text: string,
  note: XmlElement,
  name: 'accidental' | 'notehead',
  put: string,
): Edit => {
  const later: readonly string[] = ORDER.slice(ORDER.indexOf(name) + 1);
  const next = note.children.find((each) => later.includes(each.name));
  return next === undefined
    ? insertAt(note.children.at(-1)!.span.end, put)
    : insertBefore(text, next.span.start, put);
};
