import { LETTERS } from '../../music/pitch.ts';
import { type Rational, rationalKey } from '../../music/rational.ts';
import { type LeverWords, readLeverRow } from './lever-words.ts';
import type { Naming } from './pedal-names.ts';

interface LeverText {
  readonly at: Rational;
  readonly text: string;
  readonly says: LeverWords | null;
}

/**
 * Reads tables that are spelled out as all seven letters, in one text or in several at one moment, as pedals are:
 * “D C♯ B / E F♯ G A” tells of every string, and a bare letter there is its natural. Any other bare letters are left
 * as they are, not understood (common practice, no source).
 */
export const readLeverLines = <T extends LeverText>(
  words: readonly T[],
  usual: Naming | null,
): readonly T[] => {
  const rows = words.map(({ says, text }) => (says?.isTable ? null : readLeverRow(text, usual)));
  const lettersAt = new Map<string, string[]>();
  for (const [i, { at }] of words.entries()) {
    const whole = rows[i]?.names.filter(({ octave }) => octave === null) ?? [];
    const key = rationalKey(at);
    lettersAt.set(key, [...(lettersAt.get(key) ?? []), ...whole.map(({ letter }) => letter)]);
  }
  const isWhole = ({ at }: LeverText): boolean => {
    const letters = lettersAt.get(rationalKey(at))!;
    return letters.length === LETTERS.length && new Set(letters).size === LETTERS.length;
  };
  return words.map((each, i) => (rows[i] != null && isWhole(each) ? { ...each, says: rows[i] } : each));
};
