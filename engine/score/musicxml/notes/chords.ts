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

interface GrowingChord extends Chord {
  /** The voice of its first note. */
  readonly voice: string;
  arpeggio: Note['arpeggio'];
  tremolo: Tremolo | null;
}

interface TremoloChord {
  readonly chord: GrowingChord;
  readonly bar: number;
  readonly sign: TremoloSign;
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
  const chords = new Map<string, GrowingChord>();
  const tremolos = new Map<GrowingChord, TremoloChord>();
  const graceCounts = new Map<string, number>();
  for (const note of notes) {
    const { chord: key, marks, voice, bar } = note.raw;
    let chord = chords.get(key);
    if (chord === undefined) {
      chord = {
        id: note.id,
        voice,
        arpeggio: null,
        tremolo: null,
        graceOrder: nextGraceOrder(note, graceCounts),
      };
      chords.set(key, chord);
    }
    chord.arpeggio ??= marks.arpeggio;
    if (marks.tremolo !== null && !tremolos.has(chord))
      tremolos.set(chord, { chord, bar, sign: marks.tremolo });
  }
  addTremolos([...tremolos.values()], remarks);
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
const addTremolos = (tremolos: readonly TremoloChord[], remarks: RemarkList): void => {
  const pairs = pairTremolos(tremolos);
  for (const { chord, bar, sign } of tremolos) {
    const pair = pairs.get(chord)?.id ?? null;
    chord.tremolo =
      sign.kind === 'single'
        ? { kind: 'single', marks: sign.marks, pair: null }
        : { kind: 'between', marks: sign.marks, pair };
    if (sign.kind !== 'single' && pair === null)
      remarks.skip('A tremolo between two notes has only one of them', bar);
  }
};

const pairTremolos = (tremolos: readonly TremoloChord[]): ReadonlyMap<Chord, Chord> => {
  const pairs = new Map<Chord, Chord>();
  const open = new Map<string, Chord>();
  for (const { chord, sign } of tremolos) {
    const first = open.get(chord.voice);
    if (sign.kind === 'stop' && first !== undefined) {
      pairs.set(chord, first).set(first, chord);
      open.delete(chord.voice);
    }
    if (sign.kind === 'start') open.set(chord.voice, chord);
  }
  return pairs;
};
