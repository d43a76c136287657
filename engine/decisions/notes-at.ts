import { group } from '../group.ts';
import { pitchName } from '../music/pitch.ts';
import { add, compare, type Rational, rationalKey } from '../music/rational.ts';
import { beatAt } from '../score/bars/beats.ts';
import type { Note } from '../score/model/note.ts';
import type { Score } from '../score/model/score.ts';
import { writtenString } from '../sounding/needs.ts';
import { headsOfTies } from '../sounding/ties.ts';
import { callNote } from '../words/notes.ts';
import type { NotesAt, Place } from './model.ts';
import { parsePitch } from './pitch-text.ts';
import { namePlace } from './places.ts';

/** The notes of a part by where they begin; cues are not the harp's. */
export interface NoteIndex {
  /** The notes that are written for a string at a time, each by the first note of its tie. */
  readonly find: (at: Rational, wanted: Pick<NotesAt, 'pitch' | 'staff' | 'grace'>) => readonly Note[];
}

export const indexNotes = (score: Score): NoteIndex => {
  const byOnset = group(
    score.notes.filter(({ role }) => role !== 'cue'),
    ({ onset }) => rationalKey(onset),
  );
  const heads = headsOfTies(score.notes);
  return {
    find: (at, { pitch, staff, grace }) => {
      const wanted = parsePitch(pitch);
      if (wanted === null) return [];
      const name = pitchName(wanted);
      const found = (byOnset.get(rationalKey(at)) ?? []).filter(
        (note) =>
          pitchName(writtenString(note)) === name &&
          (staff === undefined || note.staff === staff) &&
          (grace === undefined || graceOf(note) === grace),
      );
      return [...new Set(found.map((note) => heads.get(note.id)!))];
    },
  };
};

/** Which of the grace notes at its place a note is, from 1; 0 for one that they lead to. */
const graceOf = ({ grace }: Note): number => (grace === null ? 0 : grace.order + 1);

/** Names a note by its id, and with it those that share its string at the same time: as the first note of its tie. */
export type NoteNames = (noteId: string) => NotesAt | null;

/** Names the notes of a score as decisions do, all in one pass. @returns null for an id that no note has */
export const nameNotes = (score: Score): NoteNames => {
  const heads = headsOfTies(score.notes);
  const nameString = createStringNames();
  const atOnset = (note: Note): string => `${rationalKey(note.onset)} ${nameString(note)}`;
  const sharing = group(
    score.notes.filter(({ role }) => role !== 'cue'),
    atOnset,
  );
  return (noteId) => {
    const note = heads.get(noteId);
    const place = note === undefined ? null : placeOfNote(score, note);
    if (note === undefined || place === null) return null;
    const others = (sharing.get(atOnset(note)) ?? []).filter(({ id }) => heads.get(id) !== note);
    return {
      ...place,
      pitch: nameString(note),
      ...(others.some(({ staff }) => staff !== note.staff) ? { staff: note.staff } : {}),
      ...(others.some((other) => graceOf(other) !== graceOf(note)) ? { grace: graceOf(note) } : {}),
    };
  };
};

/** What people call notes that are named so. */
export const callNotes = ({ pitch, grace }: NotesAt): string => callNote(pitch, (grace ?? 0) > 0);

/** A long part has few strings: each is named once. */
const createStringNames = (): ((note: Note) => string) => {
  const known = new Map<string, string>();
  return (note) => {
    const { letter, octave, alter } = writtenString(note);
    const key = `${letter}${octave};${alter}`;
    const name = known.get(key) ?? pitchName({ letter, octave, alter });
    known.set(key, name);
    return name;
  };
};

const placeOfNote = (score: Score, { bar, onset }: Note): Place | null => {
  const own = score.bars[bar]!;
  const isInside = compare(own.onset, onset) <= 0 && compare(onset, add(own.onset, own.duration)) < 0;
  return isInside ? { barIndex: bar, beat: rationalKey(beatAt(own, onset)) } : namePlace(score, onset);
};
