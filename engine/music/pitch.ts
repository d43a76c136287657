import { noteSign } from './accidental.ts';

/** The letters in the order of the pedals: left foot D C B, right foot E F G A (common practice; MusicXML 4.0, `harp-pedals`). */
export const LETTERS = ['D', 'C', 'B', 'E', 'F', 'G', 'A'] as const;

/** The letter of a pitch, and of the pedal that moves its strings. */
export type Letter = (typeof LETTERS)[number];

/** Steps above C within an octave: C = 0 ... B = 6. */
export const STEP_OF_LETTER: Readonly<Record<Letter, number>> = { C: 0, D: 1, E: 2, F: 3, G: 4, A: 5, B: 6 };

/** Semitones of the natural above C: C = 0 ... B = 11. */
const CHROMA: Readonly<Record<Letter, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };

/** The letters in the order of the scale from C. */
export const LETTERS_FROM_C: readonly Letter[] = ['C', 'D', 'E', 'F', 'G', 'A', 'B'];

/** A spelled pitch in scientific pitch notation: `alter` in semitones (fractions are microtones), C4 is middle C. */
export interface Pitch {
  readonly letter: Letter;
  readonly alter: number;
  readonly octave: number;
}

/** MIDI key number; C4 = 60. Fractional for microtones. */
export const midiOf = (pitch: Pitch): number => 12 * (pitch.octave + 1) + CHROMA[pitch.letter] + pitch.alter;

/** The natural of the letter in semitones above C. */
export const chromaOf = (letter: Letter): number => CHROMA[letter];

/** Semitones above C, from 0 up to 12 without it: of all pitches with this name. */
export const pitchClass = ({ letter, alter }: Pick<Pitch, 'letter' | 'alter'>): number =>
  (((CHROMA[letter] + alter) % 12) + 12) % 12;

/** Steps of the staff above C0: C4 = 28, D4 = 29. */
export const stepOf = (pitch: { readonly letter: Letter; readonly octave: number }): number =>
  7 * pitch.octave + STEP_OF_LETTER[pitch.letter];

/** The letter and octave that lie `step` staff steps above C0. */
export const letterAtStep = (step: number): { readonly letter: Letter; readonly octave: number } => ({
  letter: LETTERS_FROM_C[((step % 7) + 7) % 7]!,
  octave: Math.floor(step / 7),
});

/** English name with real accidentals, such as `E♭4`; a microtone is told in cents, such as `E♭4 (+50 cents)`. */
export const pitchName = (pitch: Pitch): string => nameWith(pitch, `${pitch.octave}`);

/** The same without the octave: `E♭`. */
export const spelledName = (note: Pick<Pitch, 'letter' | 'alter'>): string => nameWith(note, '');

const nameWith = ({ letter, alter }: Pick<Pitch, 'letter' | 'alter'>, octave: string): string => {
  const whole = Math.round(alter);
  const cents = Math.round((alter - whole) * 100);
  const tail = cents === 0 ? '' : ` (${cents > 0 ? '+' : '−'}${Math.abs(cents)} cents)`;
  return `${letter}${noteSign(whole)}${octave}${tail}`;
};

export const isSamePitch = (a: Pitch, b: Pitch): boolean =>
  a.letter === b.letter && a.octave === b.octave && a.alter === b.alter;

/** Whether a text is one of the seven letters. */
export const isLetter = (text: string): text is Letter => (LETTERS as readonly string[]).includes(text);

/** The letters by fifths, the order of sharps; read backwards the order of flats. */
export const LETTERS_BY_FIFTHS: readonly Letter[] = ['F', 'C', 'G', 'D', 'A', 'E', 'B'];

/**
 * What a key signature of `fifths` sharps (positive) or flats (negative) does to a letter, in semitones.
 *
 * @example keyAlter(-3, 'A') // -1: three flats are B E A
 */
export const keyAlter = (fifths: number, letter: Letter): number => {
  const place = LETTERS_BY_FIFTHS.indexOf(letter);
  const count = fifths >= 0 ? fifths - place : -fifths - (6 - place);
  const times = Math.ceil(count / 7);
  return times <= 0 ? 0 : Math.sign(fifths) * times;
};
