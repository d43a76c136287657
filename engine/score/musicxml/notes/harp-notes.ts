import { compare } from '../../../music/rational.ts';
import { isSmallDiamond } from '../../lever-signs.ts';
import type { BarRepeat } from '../../model/bar.ts';
import type { HandWords, Note, Ornament } from '../../model/note.ts';
import type { Score } from '../../model/score.ts';
import { addGlissandiInWords, untoldGlissando } from '../../words/glissandi-in-words.ts';
import { notesWithHandWords } from '../../words/hand-words.ts';
import type { IdRegistry } from '../ids.ts';
import type { RawPart } from '../raw-part.ts';
import type { RemarkList } from '../remark-list.ts';
import { type Timeline, timeOf } from '../timeline.ts';

import { type Chord, gatherChords } from './chords.ts';
import { readOrnaments } from './ornaments.ts';
import { findPhrases } from './phrases.ts';
import { inOrderOfTime, type PlacedNote, placeNotes } from './placed-note.ts';
import { findSweeps } from './sweeps.ts';
import { findTies } from './ties.ts';

/** What the notes of the harp are read against. */
export interface NoteContext {
  readonly timeline: Timeline;
  readonly repeats: readonly BarRepeat[];
  readonly ids: IdRegistry;
  readonly remarks: RemarkList;
}

/** The notes, sweeps and phrases of the harp, in order of time, from its one or two parts. */
export const readHarpNotes = (
  parts: readonly RawPart[],
  { timeline, repeats, ids, remarks }: NoteContext,
): Pick<Score, 'notes' | 'sweeps' | 'phrases' | 'smallDiamonds'> => {
  const inFile = placeNotes(
    parts.flatMap((part) => part.notes),
    timeline,
    ids,
    remarks,
  );
  const chords = gatherChords(inFile, remarks);
  const inTime = inOrderOfTime(inFile);
  const ties = findTies(inTime, repeats, timeline, remarks);
  const ornaments = readOrnaments(inTime, (bar, staff) => {
    const part = parts.findLast((each) => staff > each.staffOffset) ?? parts[0]!;
    return { bar: part.bars[bar]!, partStaff: staff - part.staffOffset };
  });
  const handOf = readHands(parts, inTime, timeline);
  const notes: Note[] = [];
  const ornamentOf = new Map<string, Ornament>(ornaments);
  for (const placed of inTime) {
    const tiedFrom = ties.from.get(placed.id) ?? null;
    const before = tiedFrom === null ? undefined : ornamentOf.get(tiedFrom);
    if (placed.raw.marks.trillContinues && before !== undefined) ornamentOf.set(placed.id, before);
    notes.push(
      noteOf(placed, {
        chord: chords.get(placed.raw.chord)!,
        duration: ties.lengths.get(placed.id) ?? placed.raw.duration,
        tiedFrom,
        ornament: ornamentOf.get(placed.id) ?? null,
        hand: handOf.get(placed.id) ?? null,
      }),
    );
  }
  const inOrder = notes.toSorted(byTime);
  const texts = parts
    .flatMap((part) => part.glissandi)
    .map((text) => ({ ...text, at: timeOf(timeline, text) }))
    .sort((a, b) => compare(a.at, b.at));
  const swept = addGlissandiInWords(inOrder, findSweeps(inTime, remarks), texts);
  for (const text of swept.untold) remarks.skip(untoldGlissando(text), text.bar);
  const smallDiamonds = inTime
    .filter(({ raw, harmonic }) => isSmallDiamond(raw, harmonic !== null))
    .map(({ id }) => id);
  return { notes: inOrder, sweeps: swept.sweeps, phrases: findPhrases(inTime), smallDiamonds };
};

/** What words say of the hand that plays, by the ids of the notes they stand at. */
const readHands = (
  parts: readonly RawPart[],
  notes: readonly PlacedNote[],
  timeline: Timeline,
): ReadonlyMap<string, HandWords> => {
  const words = parts.flatMap((part) =>
    part.handWords.map((each) => ({ ...each, at: timeOf(timeline, each) })),
  );
  if (words.length === 0) return new Map();
  const places = notes.map(({ id, onset, raw: { bar, staff } }) => ({ id, bar, staff, onset }));
  return new Map([...notesWithHandWords(places, words)].map(([{ id }, said]) => [id, said]));
};

interface NoteFindings extends Pick<Note, 'duration' | 'tiedFrom' | 'ornament' | 'hand'> {
  readonly chord: Chord;
}

const noteOf = (placed: PlacedNote, { chord, duration, tiedFrom, ornament, hand }: NoteFindings): Note => {
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
    stem: raw.stem,
    beam: raw.beam,
    hand,
  };
};

/** Grace notes before the note they lead to, in playing order. */
const byTime = (a: Note, b: Note): number =>
  compare(a.onset, b.onset) ||
  Number(a.grace === null) - Number(b.grace === null) ||
  (a.grace?.order ?? 0) - (b.grace?.order ?? 0) ||
  a.staff - b.staff;
