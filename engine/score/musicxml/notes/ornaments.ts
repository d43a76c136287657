import type { Pitch } from '../../../music/pitch.ts';
import { type BarAccidentals, startBar } from '../../bars/bar-accidentals.ts';
import type { Ornament } from '../../model/note.ts';
import { transpose } from '../attributes.ts';
import type { RawBar } from '../raw-part.ts';
import type { OrnamentSign } from './note-marks.ts';
import type { PlacedNote } from './placed-note.ts';
import { keyAt } from './staff-signs.ts';

/** Which neighbours an ornament brings in. MusicXML's `mordent` is the sign with a stroke: the lower one. */
const NEIGHBOURS: Readonly<Record<Ornament['kind'], { readonly upper: boolean; readonly lower: boolean }>> = {
  trill: { upper: true, lower: false },
  shake: { upper: true, lower: false },
  'inverted-mordent': { upper: true, lower: false },
  mordent: { upper: false, lower: true },
  turn: { upper: true, lower: true },
  'inverted-turn': { upper: true, lower: true },
  'delayed-turn': { upper: true, lower: true },
  'delayed-inverted-turn': { upper: true, lower: true },
  other: { upper: false, lower: false },
};

/**
 * The neighbours that ornaments bring in: by their own accidental, else by the accidentals earlier in the bar on the
 * same staff, else by the key.
 *
 * @param notes in order of time
 * @param barOf the bar as the part with that staff has it
 * @returns the ornament by the id of its note
 */
export const readOrnaments = (
  notes: readonly PlacedNote[],
  barOf: (bar: number, staff: number) => { readonly bar: RawBar; readonly partStaff: number },
): ReadonlyMap<string, Ornament> => {
  const ornaments = new Map<string, Ornament>();
  if (notes.every((note) => note.raw.marks.ornament === null)) return ornaments;
  const staves = new Map<string, BarAccidentals>();
  // Grace notes at the end of a bar stand at the onset of the next, among its notes.
  for (const note of notes.toSorted((a, b) => a.raw.bar - b.raw.bar)) {
    const { raw } = note;
    const { bar, partStaff } = barOf(raw.bar, raw.staff);
    const fifths = keyAt(bar.signs.keys, partStaff, raw.at);
    const key = `${raw.bar} ${raw.staff} ${fifths}`;
    const accidentals = staves.get(key) ?? startBar(fifths);
    staves.set(key, accidentals);
    // Not printed: an accidental that only a tie brings over the bar line, and that of a hidden note.
    if (raw.role !== 'hidden' && (!raw.marks.tieStop || raw.accidental)) {
      accidentals.write(raw.written.letter, raw.written.octave, raw.written.alter);
    }
    const sign = raw.marks.ornament;
    if (sign !== null) ornaments.set(note.id, ornamentOf(note, sign, accidentals));
  }
  return ornaments;
};

const ornamentOf = ({ raw }: PlacedNote, sign: OrnamentSign, accidentals: BarAccidentals): Ornament => {
  const neighbour = (steps: number, alter: number | null): Pitch => {
    const unmarked = accidentals.neighbour(raw.written, steps);
    return transpose(alter === null ? unmarked : { ...unmarked, alter }, raw.transposition);
  };
  const { upper, lower } = NEIGHBOURS[sign.kind];
  return {
    kind: sign.kind,
    upper: upper ? neighbour(1, sign.above) : null,
    lower: lower ? neighbour(-1, sign.below) : null,
  };
};
