import { compare } from '../../music/rational.ts';
import type { BarRepeat, Note, Ornament, Sweep } from '../model.ts';
import { type Chord, gatherChords } from './chords.ts';
import type { IdBook } from './ids.ts';
import { readOrnaments } from './ornaments.ts';
import { inOrderOfTime, type PlacedNote, placeNotes } from './placed-note.ts';
import type { RawPart } from './raw-part.ts';
import type { RemarkList } from './remark-list.ts';
import { findSweeps } from './sweeps.ts';
import { findTies } from './ties.ts';
import type { Timeline } from './timeline.ts';

/** What the notes of the harp are read against. */
export interface NoteContext {
  readonly timeline: Timeline;
  readonly repeats: readonly BarRepeat[];
  /** Printed numbers of the bars. */
  readonly numbers: readonly string[];
  readonly ids: IdBook;
  readonly remarks: RemarkList;
}

/** The notes and sweeps of the harp, in order of time, from its one or two parts. */
export const readHarpNotes = (
  parts: readonly RawPart[],
  { timeline, repeats, numbers, ids, remarks }: NoteContext,
): { readonly notes: readonly Note[]; readonly sweeps: readonly Sweep[] } => {
  const inFile = placeNotes(
    parts.flatMap((part) => part.notes),
    timeline,
    ids,
    numbers,
    remarks,
  );
  const chords = gatherChords(inFile, numbers, remarks);
  const inTime = inOrderOfTime(inFile);
  const ties = findTies(inTime, repeats, timeline, numbers, remarks);
  const ornaments = readOrnaments(inTime, (bar, staff) => {
    const part = parts.findLast((each) => staff > each.staffOffset) ?? parts[0]!;
    return { bar: part.bars[bar]!, partStaff: staff - part.staffOffset };
  });
  const notes: Note[] = [];
  const ornamentOf = new Map<string, Ornament>(ornaments);
  for (const placed of inTime) {
    const tiedFrom = ties.from.get(placed.id) ?? null;
    const before = tiedFrom === null ? undefined : ornamentOf.get(tiedFrom);
    if (placed.raw.marks.trillGoesOn && before !== undefined) ornamentOf.set(placed.id, before);
    notes.push(
      noteOf(placed, {
        chord: chords.get(placed.raw.chord)!,
        duration: ties.lengths.get(placed.id) ?? placed.raw.duration,
        tiedFrom,
        ornament: ornamentOf.get(placed.id) ?? null,
      }),
    );
  }
  return { notes: notes.toSorted(byTime), sweeps: findSweeps(inTime, numbers, remarks) };
};

interface NoteFindings extends Pick<Note, 'duration' | 'tiedFrom' | 'ornament'> {
  readonly chord: Chord;
}

const noteOf = (placed: PlacedNote, { chord, duration, tiedFrom, ornament }: NoteFindings): Note => {
  const { raw, id, onset, string, harmonic } = placed;
  return {
    id,
    span: raw.span,
    bar: raw.bar,
    staff: raw.staff,
    voice: raw.voice,
    onset,
    duration,
    pitch: harmonic === null ? string : { ...string, octave: string.octave + 1 },
    chord: chord.id,
    grace: raw.grace === null ? null : { order: chord.graceOrder ?? 0, slashed: raw.grace.slashed },
    tiedFrom,
    role: raw.role,
    ornament,
    tremolo: chord.tremolo,
    harmonic,
    arpeggio: raw.marks.arpeggio ?? chord.arpeggio,
    letRing: raw.marks.letRing,
  };
};

/** Grace notes before the note they lead to, in playing order. */
const byTime = (a: Note, b: Note): number =>
  compare(a.onset, b.onset) ||
  Number(a.grace === null) - Number(b.grace === null) ||
  (a.grace?.order ?? 0) - (b.grace?.order ?? 0) ||
  a.staff - b.staff;
