import { chromaOf, letterAtStep, midiOf, type Pitch, stepOf } from '../music/pitch.ts';
import type { Bar } from '../score/model/bar.ts';
import type { Note } from '../score/model/note.ts';
import type { Score } from '../score/model/score.ts';
import { otherStrings } from '../sounding/needs.ts';

/** By how much music is moved: in semitones, in steps of the staff, and in fifths of its key. */
export interface Interval {
  readonly semitones: number;
  readonly steps: number;
  readonly fifths: number;
}

/**
 * The interval of so many semitones that leads from a key to the key with the fewest accidentals; of six flats and six
 * sharps to the flats, in which a harp rings fuller (H. Berlioz, *Traité d'instrumentation*, La Harpe).
 *
 * @param keyFifths the key signature that the music has
 * @example transposingInterval(0, 1) // from C to D flat: one step up, five fifths down
 */
export const transposingInterval = (keyFifths: number, semitones: number): Interval => {
  const octavesOfFifths = Math.floor((keyFifths + 7 * semitones + 6) / 12);
  const fifths = 7 * semitones - 12 * octavesOfFifths;
  const octaves = (semitones - 7 * fifths) / 12;
  return { semitones, steps: 4 * fifths + 7 * octaves, fifths };
};

/**
 * A pitch moved by an interval. What would take a double accidental is written on the neighbouring letter.
 *
 * @example transposePitch({ letter: 'B', alter: -1, octave: 3 }, transposingInterval(-2, 2)) // C4
 */
export const transposePitch = (pitch: Pitch, { semitones, steps }: Interval): Pitch => {
  const { letter, octave } = letterAtStep(stepOf(pitch) + steps);
  const natural = 12 * (octave + 1) + chromaOf(letter);
  const moved = { letter, octave, alter: midiOf(pitch) + semitones - natural };
  return Math.abs(moved.alter) > 1 ? (otherStrings(moved)[0] ?? moved) : moved;
};

/** A part moved by an interval; the pedal markings of the file are dropped, since they hold no longer. */
export const transposeScore = (score: Score, interval: Interval): Score => ({
  ...score,
  notes: score.notes.map((note) => transposeNote(note, interval)),
  bars: score.bars.map((bar): Bar => ({ ...bar, keyFifths: keyWithin(bar.keyFifths + interval.fifths) })),
  markings: [],
});

const transposeNote = (note: Note, interval: Interval): Note => {
  const move = (pitch: Pitch | null): Pitch | null => pitch && transposePitch(pitch, interval);
  const { ornament, harmonic } = note;
  return {
    ...note,
    pitch: transposePitch(note.pitch, interval),
    ornament: ornament && { ...ornament, upper: move(ornament.upper), lower: move(ornament.lower) },
    harmonic: harmonic && { ...harmonic, string: transposePitch(harmonic.string, interval) },
  };
};

/** A key signature of at most seven accidentals with the same keys on the keyboard. */
const keyWithin = (fifths: number): number => (fifths > 7 ? fifths - 12 : fifths < -7 ? fifths + 12 : fifths);
