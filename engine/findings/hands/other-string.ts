import { otherStrings } from '../../sounding/needs.ts';
import type { NoteOfTwo } from '../help/note-help.ts';
import { type NoteFix, noteFix } from '../model.ts';
import type { Pluck } from './chords.ts';

/** The fix for a string that is asked for twice: the other string of the same pitch for one of the notes, if there is one. */
export const otherString = ({ note, string }: Pluck, which: NoteOfTwo): NoteFix[] => {
  const [other] = otherStrings(string);
  return other === undefined
    ? []
    : [
        noteFix({ kind: 'write-one-as', facts: { which, pitch: string, to: other } }, [
          { kind: 'respell', note: note.id, from: string, to: other },
        ]),
      ];
};
