import { accidentalSign } from '../music/accidental.ts';
import type { HarpString } from './profile.ts';

/** What a string gives, as a change of its lever is written: `F♯4`. */
export const nameLever = ({ letter, octave }: HarpString, alter: number): string =>
  `${letter}${accidentalSign(alter)}${octave}`;

/** What one string is to give, in semitones above the natural of its letter. */
export interface LeverAt {
  readonly string: HarpString;
  readonly alter: number;
}

export const nameLeverAt = ({ string, alter }: LeverAt): string => nameLever(string, alter);
