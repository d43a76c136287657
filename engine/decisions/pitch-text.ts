import { readAccidental } from '../music/accidental.ts';
import { isLetter, type Pitch } from '../music/pitch.ts';

const PITCH_TEXT = /^([A-G])(♭♭|bb|♭|b|♮|♯|##|#|𝄪|x|)(-?\d)(?: \(([+−-])(\d{1,2}) cents\))?$/u;

/**
 * Reads the name of a pitch, with real or ASCII accidentals: what `pitchName` writes, and `Db4`, `F##4`.
 *
 * @returns null where the text names no pitch
 * @example parsePitch('D♭4') // { letter: 'D', alter: -1, octave: 4 }
 */
export const parsePitch = (text: string): Pitch | null => {
  const [, letter = '', accidental = '', octave = '', sign, cents] = PITCH_TEXT.exec(text) ?? [];
  const alter = readAccidental(accidental);
  if (!isLetter(letter) || alter === undefined) return null;
  const bend = cents === undefined ? 0 : (Number(cents) / 100) * (sign === '+' ? 1 : -1);
  return { letter, alter: alter + bend, octave: Number(octave) };
};
