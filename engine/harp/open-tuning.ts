import { noteSign } from '../music/accidental.ts';
import { keyAlter, LETTERS, LETTERS_FROM_C, type Letter } from '../music/pitch.ts';
import type { HarpString } from './profile.ts';
import { isPosition, type Position, type Setting, settingFrom } from './setting.ts';

/** How the open strings of a lever harp are tuned: each letter flat, natural or sharp, and single strings apart. */
export interface OpenTuning {
  readonly letters: Setting;
  /** Strings that are tuned otherwise than their letter; most harps have none. */
  readonly exceptions: readonly { readonly string: HarpString; readonly alter: Position }[];
}

/** The pitch of an open string in semitones above the natural of its letter. */
export const openAlter = (tuning: OpenTuning, string: HarpString): Position =>
  tuning.exceptions.find(
    (each) => each.string.letter === string.letter && each.string.octave === string.octave,
  )?.alter ?? tuning.letters[string.letter];

/**
 * The open strings tuned as a key signature says.
 *
 * @param fifths from -7 (C flat major) to 7 (C sharp major); sharps positive
 */
export const tuneToKey = (fifths: number): OpenTuning => ({
  letters: settingFrom((letter) => positionIn(fifths, letter)),
  exceptions: [],
});

const positionIn = (fifths: number, letter: Letter): Position => {
  const alter = keyAlter(fifths, letter);
  if (!isPosition(alter)) throw new RangeError(`no key signature: ${fifths} fifths`);
  return alter;
};

/** E flat major: the custom (common practice, no source). */
export const E_FLAT_TUNING: OpenTuning = tuneToKey(-3);

const MAJOR_KEYS: Readonly<Record<string, string>> = {
  '-7': 'C♭',
  '-6': 'G♭',
  '-5': 'D♭',
  '-4': 'A♭',
  '-3': 'E♭',
  '-2': 'B♭',
  '-1': 'F',
  '0': 'C',
  '1': 'G',
  '2': 'D',
  '3': 'A',
  '4': 'E',
  '5': 'B',
  '6': 'F♯',
  '7': 'C♯',
};

/** The 15 key signatures as tunings, the one of E flat first, then by how many strings of the octave differ from it. */
export const KEY_TUNINGS: readonly OpenTuning[] = Object.keys(MAJOR_KEYS)
  .map(Number)
  .sort((a, b) => Math.abs(a + 3) - Math.abs(b + 3) || a - b)
  .map(tuneToKey);

/** Letters of which some string is tuned otherwise than in another tuning: those are to be retuned. */
export const retunedLetters = (from: OpenTuning, to: OpenTuning): Letter[] =>
  LETTERS.filter(
    (letter) =>
      from.letters[letter] !== to.letters[letter] ||
      [...from.exceptions, ...to.exceptions].some(
        ({ string }) => string.letter === letter && openAlter(from, string) !== openAlter(to, string),
      ),
  );

/** The tuning in words: `E♭ major` for a key signature, else its seven letters from C, and single strings after them. */
export const tuningName = (tuning: OpenTuning): string => {
  const key = Object.entries(MAJOR_KEYS).find(([fifths]) =>
    LETTERS.every((letter) => keyAlter(Number(fifths), letter) === tuning.letters[letter]),
  );
  const letters = LETTERS_FROM_C.map((letter) => `${letter}${noteSign(tuning.letters[letter])}`).join(' ');
  const apart = tuning.exceptions.map(
    ({ string, alter }) => `${string.letter}${noteSign(alter)}${string.octave}`,
  );
  return [key === undefined ? letters : `${key[1]} major`, ...apart].join(', ');
};
