import { type KeyNotes, type Mode, notesOfKey } from '../music/keys.ts';
import { keyAlter, LETTERS, type Letter } from '../music/pitch.ts';
import { isPosition, type Position, type Setting, settingFrom } from './setting.ts';

/** What a key asks of the pedals. */
export interface KeyPedals {
  readonly tonic: KeyNotes['tonic'];
  readonly mode: Mode;
  /** The setting of the key signature. */
  readonly setting: Setting;
  /** Pedals that the mode moves from there. */
  readonly changes: readonly { readonly letter: Letter; readonly to: Position }[];
  /** Letters that the mode raises to a double sharp, which no pedal gives. */
  readonly beyond: readonly Letter[];
}

/**
 * The pedals for a key.
 *
 * @param fifths the key signature, from -7 to 7; sharps positive
 */
export const pedalsForKey = (fifths: number, mode: Mode): KeyPedals => {
  const { tonic, alters } = notesOfKey(fifths, mode);
  const setting = settingFrom((letter) => positionInKey(fifths, letter));
  const moved = LETTERS.filter((letter) => alters[letter] !== setting[letter]);
  return {
    tonic,
    mode,
    setting,
    changes: moved.flatMap((letter) => {
      const to = alters[letter];
      return isPosition(to) ? [{ letter, to }] : [];
    }),
    beyond: moved.filter((letter) => !isPosition(alters[letter])),
  };
};

const positionInKey = (fifths: number, letter: Letter): Position => {
  const alter = keyAlter(fifths, letter);
  if (!isPosition(alter)) throw new RangeError(`no key signature of ${fifths} fifths`);
  return alter;
};
