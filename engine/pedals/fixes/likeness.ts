import { pitchName } from '../../music/pitch.ts';
import type { Score } from '../../score/model/score.ts';
import { notesById } from '../../score/notes-by-id.ts';
import type { NoteChange } from '../../sounding/changed-needs.ts';

/** What becomes of notes, whichever they are, however many and in whatever octave: grace notes are told apart. */
export const likenessOf = (score: Pick<Score, 'notes'>, changes: readonly NoteChange[]): string =>
  [
    ...new Set(
      changes.map((change) => {
        const isGrace = notesById(score.notes).get(change.note)!.grace !== null;
        const { letter, alter, octave } = change.from;
        const to =
          change.kind === 'respell' ? [change.to.letter, change.to.alter, change.to.octave - octave] : [];
        return [isGrace, letter, alter, ...to].join(' ');
      }),
    ),
  ]
    .sort()
    .join(';');

/** What becomes of a note by its name, in whatever octave: “C♯ as D♭”. */
export const kindOfChange = (change: NoteChange): string =>
  [change.from, ...(change.kind === 'respell' ? [change.to] : [])]
    .map((pitch) => pitchName({ ...pitch, octave: 0 }))
    .join(' ');

/** Whether the same becomes of all of them. */
export const areAllAlike = (changes: readonly NoteChange[]): boolean =>
  new Set(changes.map(kindOfChange)).size === 1;
