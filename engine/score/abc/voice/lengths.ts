import { type Rational, rational, subtract, toNumber } from '../../../music/rational.ts';
import type { NoteValue } from '../tune.ts';

/** Lengths are taken for multiples of a 1,024th of a whole note, or of these parts of it. */
const ODD_PARTS = [1, 3, 5, 7, 9, 11, 13, 15] as const;

const FINEST = 1024;

/** No note or rest is longer: 64 whole notes. */
const LONGEST_WHOLES = 64;

/**
 * The exact length in quarter notes of what the parser gives as a decimal part of a whole note.
 *
 * @returns null for what is no length in written music
 */
export const exactLength = (wholes: number): Rational | null => {
  if (!(wholes >= 0 && wholes <= LONGEST_WHOLES)) return null;
  for (const part of ODD_PARTS) {
    const count = wholes * FINEST * part;
    if (Math.abs(count - Math.round(count)) < 1e-6 * part)
      return rational(Math.round(count) * 4, FINEST * part);
  }
  return null;
};

/** Values of notes from the longest: breve to 256th, with up to three dots. */
const VALUES: readonly { readonly value: NoteValue; readonly length: Rational }[] = [
  0.5, 1, 2, 4, 8, 16, 32, 64, 128, 256,
].flatMap((unit) =>
  [3, 2, 1, 0].map((dots) => ({
    value: { unit, dots },
    length: rational(4 * 2 * (2 ** (dots + 1) - 1), unit * 2 * 2 ** dots),
  })),
);

export const valueLength = ({ unit, dots }: NoteValue): Rational =>
  rational(4 * 2 * (2 ** (dots + 1) - 1), unit * 2 * 2 ** dots);

/** A written length as one note value, or as several that are tied. */
export interface SplitLength {
  readonly values: readonly NoteValue[];
  /** Where the length is no sum of note values: the tuplet that each is then in. */
  readonly odd: { readonly count: number; readonly inTimeOf: number } | null;
}

/**
 * Writes a length as note values, the longest first: `5/2` quarter notes are a half and an eighth note.
 *
 * @param length above nought, in quarter notes
 */
export const splitLength = (length: Rational): SplitLength => {
  let odd = length.den;
  while (odd % 2 === 0) odd /= 2;
  const inTimeOf = 2 ** Math.floor(Math.log2(odd));
  const written = odd === 1 ? length : rational(length.num * odd, length.den * inTimeOf);
  const values: NoteValue[] = [];
  let rest = written;
  while (rest.num > 0 && values.length < MOST_TIED) {
    const next = VALUES.find((each) => toNumber(each.length) <= toNumber(rest));
    if (next === undefined) break;
    values.push(next.value);
    rest = subtract(rest, next.length);
  }
  return { values, odd: odd === 1 ? null : { count: odd, inTimeOf } };
};

/** As many breves as the longest length has, and what is left. */
const MOST_TIED = 48;
