import { accidentalSign } from './accidental.ts';
import { notesOfKey } from './keys.ts';

/** Whether music is in a major or a minor key; null where that cannot be told. */
export type KeyMode = 'major' | 'minor' | null;

/**
 * The name of a key; of both that have the signature where the mode is not known.
 *
 * @param fifths the key signature, from -7 to 7; sharps positive
 * @example nameKey(-3, 'minor') // 'C minor'
 * @example nameKey(-3, null) // 'E♭ major or C minor'
 */
export const nameKey = (fifths: number, mode: KeyMode): string => {
  if (mode === null) return `${nameKey(fifths, 'major')} or ${nameKey(fifths, 'minor')}`;
  const { letter, alter } = tonicOf(fifths, mode);
  return `${letter}${alter === 0 ? '' : accidentalSign(alter)} ${mode}`;
};

/** The first note of a key. */
export const tonicOf = (fifths: number, mode: 'major' | 'minor'): ReturnType<typeof notesOfKey>['tonic'] =>
  notesOfKey(fifths, mode === 'major' ? 'major' : 'natural minor').tonic;
