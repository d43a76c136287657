import { rationalKey } from '../../../music/rational.ts';
import type { Note, Tremolo } from '../../model/note.ts';
import type { RemarkList } from '../remark-list.ts';
import type { TremoloSign } from './note-marks.ts';
import type { PlacedNote } from './placed-note.ts';

/** What the notes of one chord share. */
export interface Chord {
  /** The id of its first note. */
  readonly id: string;
  readonly arpeggio: Note['arpeggio'];
  readonly tremolo: Tremolo | null;
  /** Place among the grace notes of its voice at this time; null for an ordinary chord. */
  readonly graceOrder: number | null;
}

interface ChordNotes {
  readonly notes: PlacedNote[];
  tremolo: TremoloSign | null;
  pair: ChordNotes | null;
}

/**
 * Gathers notes into chords. Signs that stand at one notehead hold for the chord: a tremolo, the wavy line of an
 * arpeggio, the bracket against it.
 *
 * @param notes in the order of the file
 * @returns the chord by the key that its notes share in `RawNote.chord`
 */
export const gatherChords = (
  notes: readonly PlacedNote[],
  remarks: RemarkList,
): ReadonlyMap<string, Chord> => {
  const groups = new Map<string, ChordNotes>();
  for (const note of notes) {
    const { chord, marks } = note.raw;
    const group = groups.get(chord);
    if (group === undefined) {
      groups.set(chord, { notes: [note], tremolo: marks.tremolo, pair: null });
      continue;
    }
    group.notes.push(note);
    group.tremolo ??= marks.tremolo;
  }
  pairTremolos([...groups.values()], remarks);
  const graceCounts = new Map<string, number>();
  const chords = new Map<string, Chord>();
  for (const [key, group] of groups) {
    const arpeggio = group.notes.find((note) => note.raw.marks.arpeggio !== null)?.raw.marks.arpeggio ?? null;
    const graceOrder = nextGraceOrder(group.notes[0]!, graceCounts);
    chords.set(key, { id: group.notes[0]!.id, arpeggio, tremolo: tremoloOf(group), graceOrder });
  }
  return chords;
};

const nextGraceOrder = ({ raw, onset }: PlacedNote, counts: Map<string, number>): number | null => {
  if (raw.grace === null) return null;
  const key = `${raw.voice} ${rationalKey(onset)}`;
  const order = counts.get(key) ?? 0;
  counts.set(key, order + 1);
  return order;
};

/** The two halves of a tremolo between notes follow each other in one voice. */
const pairTremolos = (groups: readonly ChordNotes[], remarks: RemarkList): void => {
  const open = new Map<string, ChordNotes>();
  for (const group of groups) {
    const { voice } = group.notes[0]!.raw;
    const first = open.get(voice);
    if (group.tremolo?.kind === 'stop' && first !== undefined) {
      group.pair = first;
      first.pair = group;
      open.delete(voice);
    }
    if (group.tremolo?.kind === 'start') open.set(voice, group);
  }
  for (const group of groups) {
    if (group.tremolo !== null && group.tremolo.kind !== 'single' && group.pair === null) {
      remarks.skip('A tremolo between two notes has only one of them', group.notes[0]!.raw.bar);
    }
  }
};

const tremoloOf = ({ tremolo, pair }: ChordNotes): Tremolo | null => {
  if (tremolo === null) return null;
  if (tremolo.kind === 'single') return { kind: 'single', marks: tremolo.marks, pair: null };
  return { kind: 'between', marks: tremolo.marks, pair: pair?.notes[0]?.id ?? null };
};
