import { E_FLAT_TUNING, type OpenTuning } from '../../harp/open-tuning.ts';
import { isPosition, type Position } from '../../harp/setting.ts';
import { noteSign } from '../../music/accidental.ts';
import { type Mode, notesOfKey } from '../../music/keys.ts';
import { LETTERS, type Letter } from '../../music/pitch.ts';

/** What a key asks of a lever harp: the same for the strings of a letter in every octave. */
export interface KeyLevers {
  /** English name with real accidentals, such as `F♯`. */
  readonly tonic: string;
  readonly mode: Mode;
  /** Letters whose levers are up. */
  readonly up: readonly Letter[];
  /** Letters to be retuned before the piece, and what to; empty where the levers are enough. */
  readonly retuned: readonly { readonly letter: Letter; readonly to: Position }[];
}

/**
 * What one key asks of the harp. A string is retuned as little as possible: down to the note, or up to where its lever
 * reaches the note.
 *
 * @param fifths the key signature, from -7 to 7; sharps positive
 */
export const leversForKey = (fifths: number, mode: Mode, tuning: OpenTuning = E_FLAT_TUNING): KeyLevers => {
  const { tonic, alters } = notesOfKey(fifths, mode);
  const letters = LETTERS.map((letter) => {
    const wanted = alters[letter];
    const open = tuning.letters[letter];
    const to = wanted < open ? wanted : Math.max(open, wanted - 1);
    if (!isPosition(to)) throw new RangeError(`no string gives ${letter} raised by ${wanted}`);
    return { letter, isUp: wanted > to, to, isRetuned: to !== open };
  });
  return {
    tonic: `${tonic.letter}${noteSign(tonic.alter)}`,
    mode,
    up: letters.filter(({ isUp }) => isUp).map(({ letter }) => letter),
    retuned: letters.filter(({ isRetuned }) => isRetuned).map(({ letter, to }) => ({ letter, to })),
  };
};
