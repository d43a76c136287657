import { keyAlter, LETTERS, LETTERS_BY_FIFTHS, LETTERS_FROM_C, type Letter } from './pitch.ts';

/** The modes of a key that harps are set for. */
export const MODES = ['major', 'natural minor', 'harmonic minor', 'melodic minor'] as const;

/** A mode of a key. */
export type Mode = (typeof MODES)[number];

/** The notes of a key: one for each letter, in every octave. */
export interface KeyNotes {
  readonly tonic: { readonly letter: Letter; readonly alter: number };
  readonly mode: Mode;
  /** Semitones by which each letter is raised: 2 is a double sharp. */
  readonly alters: Readonly<Record<Letter, number>>;
}

/** Degrees, from 0, that a minor mode raises above the key signature; the melodic one rising. */
const RAISED: Readonly<Record<Mode, readonly number[]>> = {
  major: [],
  'natural minor': [],
  'harmonic minor': [6],
  'melodic minor': [5, 6],
};

/**
 * The notes of a key.
 *
 * @param fifths the key signature, from -7 to 7; sharps positive
 */
export const notesOfKey = (fifths: number, mode: Mode): KeyNotes => {
  const tonic = LETTERS_BY_FIFTHS[(((fifths + (mode === 'major' ? 1 : 4)) % 7) + 7) % 7]!;
  const raised = RAISED[mode].map((degree) => LETTERS_FROM_C[(LETTERS_FROM_C.indexOf(tonic) + degree) % 7]);
  const alters = Object.fromEntries(
    LETTERS.map((letter) => [letter, keyAlter(fifths, letter) + (raised.includes(letter) ? 1 : 0)]),
  ) as Record<Letter, number>;
  return { tonic: { letter: tonic, alter: keyAlter(fifths, tonic) }, mode, alters };
};
