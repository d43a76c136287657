import { letterAtStep, midiOf, type Pitch, stepOf } from '../../music/pitch.ts';
import { compare, equals, type Rational } from '../../music/rational.ts';
import type { BarAccidentals } from '../bar-accidentals.ts';
import type { Harmonic, Ornament } from '../model.ts';
import type { Transposition } from './definitions.ts';
import { type BarDraft, groupByBar, type NoteDraft, type StaffBar } from './draft.ts';
import { startBarIn } from './keys.ts';
import type { OctaveShifts } from './octave-lines.ts';
import { type OrnamentSign, spellOrnament } from './ornaments.ts';
import type { Ties } from './ties.ts';
import { comparePlaying } from './times.ts';

/** What a note gives to the ear. */
export interface Sounding {
  readonly pitch: Pitch;
  readonly ornament: Ornament | null;
  readonly harmonic: Harmonic | null;
}

interface Marks {
  readonly ties: Ties;
  readonly shifts: OctaveShifts;
  readonly ornaments: ReadonlyMap<NoteDraft, OrnamentSign>;
}

/**
 * Works out the sounding pitch of every note, bar by bar and staff by staff in playing order.
 *
 * A note's alteration is, in this order: what the file says is performed, the printed accidental, that of the note
 * it is tied from, an accidental earlier in the bar at the same octave, the key signature.
 */
export const soundNotes = (
  bars: readonly BarDraft[],
  notes: readonly NoteDraft[],
  marks: Marks,
): ReadonlyMap<NoteDraft, Sounding> => {
  const soundings = new Map<NoteDraft, Sounding>();
  const alters = new Map<NoteDraft, number>();
  const byBar = groupByBar(notes);
  for (const bar of bars) {
    for (const [index, staff] of bar.staves.entries()) {
      const line = (byBar.get(bar.index) ?? [])
        .filter((note) => note.staff === index + 1)
        .toSorted(comparePlaying);
      const memory = followKeys(staff, bar.onset);
      for (const note of line) {
        const accidentals = memory(note.onset);
        const alter = alterOf(note, accidentals, alters, marks.ties);
        alters.set(note, alter);
        soundings.set(note, sound(note, alter, accidentals, staff.transposition, marks));
      }
    }
  }
  return soundings;
};

/** The accidentals in force at a time of the bar: begun anew where a key signature stands inside it. Times must not go back. */
const followKeys = (staff: StaffBar, barOnset: Rational): ((time: Rational) => BarAccidentals) => {
  let accidentals = startBarIn(staff.key);
  const changes = staff.keyChanges.filter((change) => !equals(change.at, barOnset));
  return (time) => {
    while (changes[0] !== undefined && compare(changes[0].at, time) <= 0)
      accidentals = startBarIn(changes.shift()!.key);
    return accidentals;
  };
};

const alterOf = (
  note: NoteDraft,
  accidentals: BarAccidentals,
  alters: ReadonlyMap<NoteDraft, number>,
  ties: Ties,
): number => {
  const { letter, octave, accidental, performedAlter } = note.written;
  if (accidental !== undefined) accidentals.write(letter, octave, accidental);
  const stated = performedAlter ?? accidental;
  if (stated !== undefined) return stated;
  const copied = note.copyOf === null ? undefined : alters.get(note.copyOf);
  const from = ties.get(note);
  const tied = from?.written.letter === letter ? alters.get(from) : undefined;
  return copied ?? tied ?? accidentals.alterOf(letter, octave);
};

const sound = (
  note: NoteDraft,
  alter: number,
  accidentals: BarAccidentals,
  transposition: Transposition,
  { shifts, ornaments }: Marks,
): Sounding => {
  const { letter, octave, performedLetter, performedOctave } = note.written;
  const written = { letter, octave, alter };
  const octaves = performedOctave === undefined ? (shifts.get(note) ?? 0) : performedOctave - octave;
  const place = (pitch: Pitch, by: number): Pitch =>
    transpose({ ...pitch, octave: pitch.octave + by }, transposition);
  const sign = ornaments.get(note);
  const ornament =
    sign === undefined
      ? null
      : spellOrnament(sign, (steps, stated) => {
          const near = accidentals.neighbour(written, steps);
          return place({ ...near, alter: stated ?? near.alter }, octaves);
        });
  if (!note.harmonic)
    return {
      pitch: place({ ...written, letter: performedLetter ?? letter }, octaves),
      ornament,
      harmonic: null,
    };
  const stated = performedOctave !== undefined && performedOctave !== octave;
  const string = place(written, stated ? 0 : octaves);
  const pitch = { ...string, octave: string.octave + 1 };
  return { pitch, ornament, harmonic: { string, notated: 'base-pitch', assumed: !stated } };
};

/** The sounding pitch: `steps` move the letter, and the alteration makes up the rest of the semitones. */
export const transpose = (pitch: Pitch, { steps, semitones }: Transposition): Pitch => {
  if (steps === 0 && semitones === 0) return pitch;
  const natural = { ...letterAtStep(stepOf(pitch) + steps), alter: 0 };
  return { ...natural, alter: midiOf(pitch) + semitones - midiOf(natural) };
};
