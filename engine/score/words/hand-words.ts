import { group } from '../../group.ts';
import type { Side } from '../../harp/side.ts';
import { compare, type Rational } from '../../music/rational.ts';
import type { HandWords } from '../model/note.ts';
import { foldLabel, LONGEST_LABEL } from './labels.ts';

/** Words and letters for the two hands in English, French, German, Italian and Spanish (common practice, no source). */
const HANDS: readonly (readonly [Side, RegExp])[] = [
  [
    'right',
    /(?<!\p{L})(?:right(?: hand)?|r\.? ?h\.?|m\.? ?d\.?|mano destra|destra|main droite|droite|rechte(?: hand)?|rechts|mano derecha|derecha)(?!\p{L})/u,
  ],
  [
    'left',
    /(?<!\p{L})(?:left(?: hand)?|l\.? ?h\.?|m\.? ?[gsi]\.?|mano sinistra|sinistra|main gauche|gauche|linke(?: hand)?|links|mano izquierda|izquierda)(?!\p{L})/u,
  ],
];

const CROSSINGS: readonly (readonly [NonNullable<HandWords['crossing']>, RegExp])[] = [
  ['over', /(?<!\p{L})(?:sopra|over|au-?dessus|dessus|oben|ubergreifen|encima)(?!\p{L})/u],
  ['under', /(?<!\p{L})(?:sotto|under|au-?dessous|dessous|unten|untergreifen|debajo)(?!\p{L})/u],
];

/** Which hand a label names, and the label without it; null where it names none. */
export const handInLabel = (label: string): { readonly hand: Side; readonly rest: string } | null => {
  const folded = foldLabel(label);
  for (const [hand, pattern] of HANDS) {
    if (pattern.test(folded)) return { hand, rest: withoutWord(folded, pattern) };
  }
  return null;
};

const withoutWord = (folded: string, pattern: RegExp): string =>
  folded
    .replace(pattern, ' ')
    .replace(/[\s().,:;[\]-]+/gu, ' ')
    .trim();

/**
 * Reads words that say which hand plays, or that it crosses the other: “m.g.”, “R.H.”, “m.d. sopra”.
 *
 * @returns null for words that say anything else as well, such as “come sopra”
 */
export const readHandWords = (text: string): HandWords | null => {
  if (text.length > LONGEST_LABEL) return null;
  const crossing = CROSSINGS.find(([, pattern]) => pattern.test(foldLabel(text)));
  const others = crossing === undefined ? text : withoutWord(foldLabel(text), crossing[1]);
  const named = handInLabel(others);
  const rest = named === null ? foldLabel(others).replace(/[\s().,:;[\]-]+/gu, '') : named.rest;
  if (rest !== '' || (crossing === undefined && named === null)) return null;
  return { hand: named?.hand ?? null, crossing: crossing?.[0] ?? null };
};

/** Words about a hand, and where they stand. */
export interface PlacedHandWords {
  readonly bar: number;
  readonly at: Rational;
  readonly staff: number;
  readonly words: HandWords;
}

/**
 * Gives words about hands to the notes that they stand at: those of their staff that begin there, else those that begin
 * next in the bar. How far the words hold beyond these notes is left open.
 *
 * @param notes in order of time
 */
export const notesWithHandWords = <
  T extends { readonly bar: number; readonly staff: number; readonly onset: Rational },
>(
  notes: readonly T[],
  words: readonly PlacedHandWords[],
): ReadonlyMap<T, HandWords> => {
  const found = new Map<T, HandWords>();
  if (words.length === 0) return found;
  const byPlace = group(notes, ({ bar, staff }) => `${bar} ${staff}`);
  for (const { bar, at, staff, words: said } of words) {
    const there = byPlace.get(`${bar} ${staff}`) ?? [];
    const first = there.find(({ onset }) => compare(onset, at) >= 0);
    if (first === undefined) continue;
    for (const note of there) if (compare(note.onset, first.onset) === 0) found.set(note, said);
  }
  return found;
};
