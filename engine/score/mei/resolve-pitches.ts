import { letterAtStep, midiOf, type Pitch, stepOf } from '../../music/pitch.ts';
import { compare, equals, type Rational } from '../../music/rational.ts';
import type { BarAccidentals } from '../bars/bar-accidentals.ts';
import type { Harmonic, Ornament } from '../model/note.ts';
import type { Transposition } from './definitions.ts';
import { type BarDraft, groupByBar, type NoteDraft, type StaffBar } from './draft.ts';
import type { ReadLog } from './log.ts';
import { comparePlayingOrder } from './marks/mark-times.ts';
import type { OctaveShifts } from './marks/octave-lines.ts';
import { type OrnamentSign, spellOrnament } from './marks/ornaments.ts';
import type { Ties } from './marks/ties.ts';
import { startBarInKey } from './notes/keys.ts';

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

/** How a file tells what sounds: it prints accidentals as a page does, or it states every altered note. */
type AccidentalConvention = 'as-printed' | 'every-note';

/**
 * Works out the sounding pitch of every note, bar by bar and staff by staff in playing order.
 *
 * A note's alteration is, in this order: what the file says is performed, the printed accidental, that of the note
 * it is tied from, an accidental earlier in the bar at the same octave, the key signature. Where the file states
 * every altered note, the last two do not count: a note that states nothing is natural.
 */
export const resolvePitches = (
  bars: readonly BarDraft[],
  notes: readonly NoteDraft[],
  marks: Marks,
  log: ReadLog,
): ReadonlyMap<NoteDraft, Sounding> => {
  const habit = findConvention(bars, notes, marks.ties, log);
  const soundings = new Map<NoteDraft, Sounding>();
  const alters = new Map<NoteDraft, number>();
  playBars(bars, notes, (note, accidentals, staff) => {
    const alter = alterOf(note, accidentals, alters, marks.ties, habit);
    alters.set(note, alter);
    soundings.set(note, sound(note, alter, accidentals, staff.transposition, marks));
  });
  return soundings;
};

/** So many notes that state what key or bar give them anyway, for one that does not, show a habit of stating it. */
const CONVENTION_RATIO = 10;

/** Finds whether the file states every altered note. Where that makes notes natural, the user is told. */
const findConvention = (
  bars: readonly BarDraft[],
  notes: readonly NoteDraft[],
  ties: Ties,
  log: ReadLog,
): AccidentalConvention => {
  let stated = 0;
  let left = 0;
  playBars(bars, notes, (note, accidentals) => {
    const { letter, octave, accidental, performedAlter } = note.written;
    if (accidental !== undefined) return accidentals.write(letter, octave, accidental);
    const implied = accidentals.alterOf(letter, octave);
    if (implied === 0 || ties.has(note) || note.copyOf !== null) return;
    if (performedAlter === undefined) left += 1;
    else if (performedAlter === implied) stated += 1;
  });
  if (stated === 0 || stated < left * CONVENTION_RATIO) return 'as-printed';
  if (left > 0) {
    const message = `The file writes out every accidental. Read as natural, whatever the key signature or the bar says: ${left === 1 ? 'one note' : `${left} notes`} without an accidental.`;
    log.remark('alternative-chosen', null, message);
  }
  return 'every-note';
};

/** Goes through the notes of each staff and bar in playing order, with the accidentals in force at each. */
const playBars = (
  bars: readonly BarDraft[],
  notes: readonly NoteDraft[],
  visit: (note: NoteDraft, accidentals: BarAccidentals, staff: StaffBar) => void,
): void => {
  const byBar = groupByBar(notes);
  for (const bar of bars) {
    for (const [index, staff] of bar.staves.entries()) {
      const line = (byBar.get(bar.index) ?? []).filter((note) => note.staff === index + 1);
      const accidentalsAt = followKeys(staff, bar.onset);
      for (const note of line.toSorted(comparePlayingOrder)) visit(note, accidentalsAt(note.onset), staff);
    }
  }
};

/** The accidentals in force at a time of the bar: begun anew where a key signature stands inside it. Times must not go back. */
const followKeys = (staff: StaffBar, barOnset: Rational): ((time: Rational) => BarAccidentals) => {
  let accidentals = startBarInKey(staff.key);
  const changes = staff.keyChanges.filter((change) => !equals(change.at, barOnset));
  return (time) => {
    while (changes[0] !== undefined && compare(changes[0].at, time) <= 0)
      accidentals = startBarInKey(changes.shift()!.key);
    return accidentals;
  };
};

const alterOf = (
  note: NoteDraft,
  accidentals: BarAccidentals,
  alters: ReadonlyMap<NoteDraft, number>,
  ties: Ties,
  habit: AccidentalConvention,
): number => {
  const { letter, octave, accidental, performedAlter } = note.written;
  if (accidental !== undefined) accidentals.write(letter, octave, accidental);
  const stated = performedAlter ?? accidental;
  if (stated !== undefined) return stated;
  const copied = note.copyOf === null ? undefined : alters.get(note.copyOf);
  const from = ties.get(note);
  const tied = from?.written.letter === letter ? alters.get(from) : undefined;
  return copied ?? tied ?? (habit === 'every-note' ? 0 : accidentals.alterOf(letter, octave));
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
const transpose = (pitch: Pitch, { steps, semitones }: Transposition): Pitch => {
  if (steps === 0 && semitones === 0) return pitch;
  const natural = { ...letterAtStep(stepOf(pitch) + steps), alter: 0 };
  return { ...natural, alter: midiOf(pitch) + semitones - midiOf(natural) };
};
