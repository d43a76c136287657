import { add, compare, descendantsNamed, type Note, notesById, type Score } from '../../../engine/index.ts';
import { cut, type Edit, setAttribute } from '../../edit.ts';
import type { LayoutMei } from '../../layout/document/layout-mei.ts';

/**
 * Ties to the notes that the file means: where a tie goes to another voice, whose note stands in the file before it, the
 * conversion from MusicXML takes the next end of a tie that it finds, bars later, or none. Such a tie to a note that does not
 * follow goes where the file has none that does.
 */
export const crossedTieEdits = ({ notes, source }: Score, { root, text }: LayoutMei): Edit[] => {
  if (source.format === 'mei') return [];
  const byId = notesById(notes);
  const nextOf = new Map(notes.flatMap((note) => (note.tiedFrom === null ? [] : [[note.tiedFrom, note]])));
  return descendantsNamed(root, 'tie').flatMap(({ attributes, span }) => {
    const [from, to] = [attributes.startid, attributes.endid].map((id) => byId.get(id?.slice(1) ?? ''));
    const meant = from === undefined ? undefined : nextOf.get(from.id);
    if (from === undefined || (to !== undefined && (to.tiedFrom === from.id || follows(from, to)))) return [];
    if (meant !== undefined) return [setAttribute(text, span.start, 'endid', `#${meant.id}`)];
    return to === undefined ? [] : [cut(span)];
  });
};

const follows = (from: Note, to: Note): boolean => compare(add(from.onset, from.duration), to.onset) === 0;
