import { accidentalSign } from './accidental.ts';
import { LETTERS_BY_FIFTHS, type Letter } from './pitch.ts';

/** Fifths from the first note of a mode to that of the major key with the same signature. */
const MODES_BY_FIFTHS = {
  lydian: -1,
  major: 0,
  mixolydian: 1,
  dorian: 2,
  minor: 3,
  phrygian: 4,
  locrian: 5,
} as const;

/** The mode of a key; null where it cannot be told. */
export type KeyMode = keyof typeof MODES_BY_FIFTHS | null;

/** Names that score files have for modes, beside our own. */
const SAME_MODES: ReadonlyMap<string, NonNullable<KeyMode>> = new Map([
  ['ionian', 'major'],
  ['aeolian', 'minor'],
]);

/** The mode that a score file names; null for none, and for one that is not known. */
export const readKeyMode = (text: string | undefined): KeyMode => {
  const name = text?.trim().toLowerCase() ?? '';
  return Object.hasOwn(MODES_BY_FIFTHS, name)
    ? (name as NonNullable<KeyMode>)
    : (SAME_MODES.get(name) ?? null);
};

/**
 * The name of a key; of the major and the minor one that have the signature where the mode is not known.
 *
 * @param fifths the key signature, from -7 to 7; sharps positive
 * @example nameKey(-3, 'minor') // 'C minor'
 * @example nameKey(0, 'dorian') // 'D dorian'
 * @example nameKey(-3, null) // 'E♭ major or C minor'
 */
export const nameKey = (fifths: number, mode: KeyMode): string => {
  if (mode === null) return `${nameKey(fifths, 'major')} or ${nameKey(fifths, 'minor')}`;
  const { letter, alter } = tonicOf(fifths, mode);
  return `${letter}${alter === 0 ? '' : accidentalSign(alter)} ${mode}`;
};

/** The first note of a key. */
export const tonicOf = (
  fifths: number,
  mode: NonNullable<KeyMode>,
): { readonly letter: Letter; readonly alter: number } => {
  const place = fifths + MODES_BY_FIFTHS[mode] + 1;
  const alter = Math.floor(place / LETTERS_BY_FIFTHS.length);
  return { letter: LETTERS_BY_FIFTHS[place - alter * LETTERS_BY_FIFTHS.length]!, alter };
};
