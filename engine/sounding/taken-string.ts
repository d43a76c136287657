import { midiOf, type Pitch } from '../music/pitch.ts';
import type { Note } from '../score/model/note.ts';
import type { Score } from '../score/model/score.ts';
import { isPlucked, isPluckedWith } from '../score/plucked.ts';
import { writtenString } from './needs.ts';

/**
 * Whether another note plucks a string when a note does, or, if that is a grace note, when the note does that it leads to:
 * a note moved on to that string is lost, so that to move it is to leave it out.
 */
export const isTaken = ({ notes }: Pick<Score, 'notes'>, own: Note, to: Pitch): boolean =>
  notes.some(
    (other) =>
      other.id !== own.id &&
      isPlucked(other) &&
      isPluckedWith(other, own) &&
      midiOf(writtenString(other)) === midiOf(to),
  );
