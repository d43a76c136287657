import { readAccidental } from '../music/accidental.ts';
import { LETTERS_BY_FIFTHS, type Letter } from '../music/pitch.ts';
import { fail, ok, type Result } from '../problem.ts';
import { type OpenTuning, tuneToKey } from './open-tuning.ts';
import { parseSetting } from './setting.ts';

/** The fifths of a major key are its letter's place by fifths less one, and seven for an accidental. */
const ACCIDENTAL_FIFTHS = 7;
/** A minor key has the signature of the major key three fifths below its own. */
const MINOR_FIFTHS = 3;
/** There is no signature of more than seven sharps or flats. */
const MOST_FIFTHS = 7;

/**
 * Reads how open strings are tuned: a key by name, or seven note names, real or ASCII accidentals; and after commas
 * single strings that are tuned otherwise. What `tuningName` tells is read back as it was.
 *
 * @returns the tuning, or `bad-value`
 * @example readTuning('Eb major')
 * @example readTuning('c minor')
 * @example readTuning('C D Eb F# G A Bb')
 * @example readTuning('C major, D#7')
 */
export const readTuning = (text: string): Result<OpenTuning> => {
  const [letters, ...apart] = text.split(',');
  const exceptions = apart.map(readException);
  const unread = exceptions.indexOf(null);
  if (unread >= 0)
    return fail({ code: 'bad-value', what: 'string', value: apart[unread]!.trim(), line: 1, column: 1 });
  const tuning = readLetters(letters!);
  return tuning.ok ? ok({ ...tuning.value, exceptions: exceptions.filter((each) => each !== null) }) : tuning;
};

/** A string by its letter and octave, with the accidental that it is tuned to. */
const readException = (text: string): OpenTuning['exceptions'][number] | null => {
  const [, letter, sign = '', octave] = /^\s*([A-Ga-g])([^\d\s]*)(\d)\s*$/u.exec(text) ?? [];
  const alter = readAccidental(sign);
  const isPosition = alter === -1 || alter === 0 || alter === 1;
  return letter !== undefined && isPosition
    ? { string: { letter: letter.toUpperCase() as Letter, octave: Number(octave) }, alter }
    : null;
};

const readLetters = (text: string): Result<OpenTuning> => {
  const [, letter, sign = '', mode = ''] = /^\s*([A-Ga-g])([b#♭♯]?)\s+(major|minor)\s*$/.exec(text) ?? [];
  if (letter === undefined) {
    const letters = parseSetting(text);
    return letters.ok ? ok({ letters: letters.value, exceptions: [] }) : letters;
  }
  const fifths =
    LETTERS_BY_FIFTHS.indexOf(letter.toUpperCase() as Letter) -
    1 +
    ACCIDENTAL_FIFTHS * readAccidental(sign)! -
    (mode === 'minor' ? MINOR_FIFTHS : 0);
  return Math.abs(fifths) > MOST_FIFTHS
    ? fail({ code: 'bad-value', what: 'key', value: text, line: 1, column: 1 })
    : ok(tuneToKey(fifths));
};
