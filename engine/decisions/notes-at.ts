import { group } from 'd3-array';
import { isSamePitch, pitchName } from '../music/pitch.ts';
import { equals, type Rational, rationalKey } from '../music/rational.ts';
import type { Note, Score } from '../score/model.ts';
import { writtenString } from '../sounding/needs.ts';
import { headsOfTies } from '../sounding/ties.ts';
import type { NotesAt } from './model.ts';
import { parsePitch } from './pitch-text.ts';
import { namePlace } from './places.ts';

/** The notes of a part by where they begin; cues are not the harp's. */
export interface NoteIndex {
  /** The notes that are written for a string at a time, each by the first note of its tie. */
  readonly find: (at: Rational, wanted: Pick<NotesAt, 'pitch' | 'staff'>) => readonly Note[];
}

export const indexNotes = (score: Score): NoteIndex => {
  const byOnset = group(
    score.notes.filter(({ role }) => role !== 'cue'),
    ({ onset }) => rationalKey(onset),
  );
  const heads = headsOfTies(score.notes);
  return {
    find: (at, { pitch, staff }) => {
      const wanted = parsePitch(pitch);
      if (wanted === null) return [];
      const name = pitchName(wanted);
      const found = (byOnset.get(rationalKey(at)) ?? []).filter(
        (note) => pitchName(writtenString(note)) === name && (staff === undefined || note.staff === staff),
      );
      return [...new Set(found.map((note) => heads.get(note.id)!))];
    },
  };
};

/**
 * Names a note, and with it those that share its string at the same time: as the first note of its tie.
 *
 * @returns null where the note is not in the score, or is a cue
 */
export const nameNotes = (score: Score, noteId: string): NotesAt | null => {
  const note = headsOfTies(score.notes).get(noteId);
  const place = note === undefined || note.role === 'cue' ? null : namePlace(score, note.onset);
  if (note === undefined || place === null) return null;
  const string = writtenString(note);
  const both = score.notes.some(
    (other) =>
      other.staff !== note.staff &&
      other.role !== 'cue' &&
      equals(other.onset, note.onset) &&
      isSamePitch(writtenString(other), string),
  );
  return { ...place, pitch: pitchName(string), ...(both ? { staff: note.staff } : {}) };
};
