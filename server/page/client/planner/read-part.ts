import {
  type Bar,
  beatAt,
  beatLength,
  buildPlayback,
  headsOfTies,
  type Note,
  type NotesAt,
  otherStrings,
  type Pitch,
  pitchName,
  type Remark,
  rationalKey,
  type Score,
  toNumber,
  writtenString,
} from '../../../../engine/index.ts';
import { listMomentPlaces } from './allowed-moments.ts';
import type { BarPlace, NotePlace, ReadPart } from './planned-part.ts';

const placeBar = (bar: Bar): BarPlace => ({
  id: bar.id,
  number: bar.number,
  onsetQuarters: toNumber(bar.onset),
  durationQuarters: toNumber(bar.duration),
  beatQuarters: toNumber(beatLength(bar.meter)),
});

/** Names and other strings of pitches, made once each: a long part has few. */
const namePitches = () => {
  const known = new Map<string, { readonly name: string; readonly others: readonly string[] }>();
  return (pitch: Pitch) => {
    const key = `${pitch.letter}${pitch.octave};${pitch.alter}`;
    const found = known.get(key) ?? { name: pitchName(pitch), others: otherStrings(pitch).map(pitchName) };
    known.set(key, found);
    return found;
  };
};

/** Where each note is to be found by the user's decisions: what `nameNotes` tells, for all notes in one pass. */
const placeNotes = ({ notes, bars }: Score): Map<string, NotePlace> => {
  const of = namePitches();
  const onsetAndString = (note: Note): string => `${rationalKey(note.onset)} ${of(writtenString(note)).name}`;
  const staves = new Map<string, Set<number>>();
  const heads = headsOfTies(notes);
  for (const note of notes) {
    if (note.role === 'cue') continue;
    const key = onsetAndString(note);
    staves.set(key, (staves.get(key) ?? new Set()).add(note.staff));
  }
  const nameHead = (head: Note): NotesAt => ({
    barIndex: head.bar,
    beat: rationalKey(beatAt(bars[head.bar]!, head.onset)),
    pitch: of(writtenString(head)).name,
    ...((staves.get(onsetAndString(head))?.size ?? 1) > 1 ? { staff: head.staff } : {}),
  });
  return new Map(
    notes.map((note) => [
      note.id,
      {
        name: of(note.pitch).name,
        bar: note.bar,
        onset: note.onset,
        notes: nameHead(heads.get(note.id)!),
        others: of(writtenString(note)).others,
      },
    ]),
  );
};

/** All that the page shows of a score; `remarks` are those that its reader did not make. */
export const readPart = (score: Score, remarks: readonly Remark[]): ReadPart => ({
  titles: score.titles,
  partName: score.harp.name,
  partIds: score.harp.partIds,
  harps: score.harps,
  format: score.source.format,
  compressed: score.source.archivePath !== null,
  bars: score.bars.map(placeBar),
  notes: placeNotes(score),
  moments: listMomentPlaces(score),
  hearing: buildPlayback(score),
  remarks: [...score.remarks, ...remarks],
  markings: score.markings.length,
});
