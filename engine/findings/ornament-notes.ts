import type { Pitch } from '../music/pitch.ts';
import type { Note } from '../score/model/note.ts';
import { type Need, writtenString } from '../sounding/needs.ts';
import { ENGLISH_NAMES, type NoteNames } from './note-names.ts';

/** A note that is not printed: the neighbour that an ornament brings in. */
export interface OrnamentNote {
  readonly pitch: Pitch;
  readonly what: 'trill' | 'ornament';
  /** The note with the sign. */
  readonly on: Pitch;
}

/** Those of some needs that only ornaments bring in. */
export const ornamentNotesOf = (
  needs: readonly (Pick<Need, 'kind' | 'note'> & { readonly pitch: Pitch })[],
): readonly OrnamentNote[] =>
  needs.flatMap(({ kind, note, pitch }) =>
    kind === 'implied' ? [{ pitch, what: nameOrnament(note), on: writtenString(note) }] : [],
  );

/** What a note’s ornament is called. */
export const nameOrnament = ({ ornament }: Note): OrnamentNote['what'] =>
  ornament?.kind === 'trill' ? 'trill' : 'ornament';

/** A sentence for each of them, to follow one that names the notes; nothing where there are none. */
export const afterSentence = (notes: readonly OrnamentNote[], say: (note: OrnamentNote) => string): string =>
  notes.map((note) => ` ${say(note)}`).join('');

/** “ The E♭5 belongs to the trill on D5.”, after a sentence that names the note. */
export const sayOrnamentNotes = (notes: readonly OrnamentNote[], names: NoteNames = ENGLISH_NAMES): string =>
  afterSentence(
    notes,
    ({ pitch, what, on }) => `The ${names.pitch(pitch)} belongs to the ${what} on ${names.pitch(on)}.`,
  );
