const SIGNS: ReadonlyMap<number, string> = new Map([
  [-2, '♭♭'],
  [-1, '♭'],
  [0, '♮'],
  [1, '♯'],
  [2, '𝄪'],
]);

/** An accidental as it is written, by whole semitones, the natural sign included: `♭`, `♮`, `(+3 semitones)`. */
export const accidentalSign = (alter: number): string =>
  SIGNS.get(alter) ?? `(${alter > 0 ? '+' : ''}${alter} semitones)`;

/** An accidental as notes are named by it: nothing for a natural. */
export const noteSign = (alter: number): string => (alter === 0 ? '' : accidentalSign(alter));

const ALTERS: ReadonlyMap<string, number> = new Map([
  ['♭♭', -2],
  ['bb', -2],
  ['♭', -1],
  ['b', -1],
  ['', 0],
  ['n', 0],
  ['♮', 0],
  ['♯', 1],
  ['#', 1],
  ['𝄪', 2],
  ['##', 2],
  ['x', 2],
]);

/**
 * Reads an accidental as people type it: real or ASCII, nothing or `n` for a natural.
 *
 * @returns semitones; undefined where the text is no accidental
 */
export const readAccidental = (text: string): number | undefined => ALTERS.get(text);
