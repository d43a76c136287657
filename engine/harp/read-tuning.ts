import { readAccidental } from '../music/accidental.ts';
import { LETTERS_BY_FIFTHS, type Letter } from '../music/pitch.ts';
import { ok, type Result, refuse } from '../problem.ts';
import { type OpenTuning, tuneToKey } from './open-tuning.ts';
import { parseSetting } from './setting.ts';

/** The fifths of a major key are its letter's place by fifths less one, and seven for an accidental. */
const ACCIDENTAL_FIFTHS = 7;
/** A minor key has the signature of the major key three fifths below its own. */
const MINOR_FIFTHS = 3;
/** There is no signature of more than seven sharps or flats. */
const MOST_FIFTHS = 7;

/**
 * Reads how open strings are tuned: a key by name, or seven note names, real or ASCII accidentals.
 *
 * @returns the tuning, or `bad-value`
 * @example readTuning('Eb major')
 * @example readTuning('c minor')
 * @example readTuning('C D Eb F# G A Bb')
 */
export const readTuning = (text: string): Result<OpenTuning> => {
  const [, letter, sign = '', mode = ''] = /^\s*([A-Ga-g])([b#♭♯]?)\s+(major|minor)\s*$/.exec(text) ?? [];
  if (letter === undefined) {
    const letters = parseSetting(text);
    return letters.ok ? ok({ letters: letters.value, apart: [] }) : letters;
  }
  const fifths =
    LETTERS_BY_FIFTHS.indexOf(letter.toUpperCase() as Letter) -
    1 +
    ACCIDENTAL_FIFTHS * readAccidental(sign)! -
    (mode === 'minor' ? MINOR_FIFTHS : 0);
  return Math.abs(fifths) > MOST_FIFTHS
    ? refuse({ code: 'bad-value', what: 'key', value: text, line: 1, column: 1 })
    : ok(tuneToKey(fifths));
};
