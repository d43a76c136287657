import type { OtherWay } from '../words/plan-words.ts';

/** A key, with the other way to it where that was tried. */
export type InEitherWay<Key> = Key & { readonly otherWay: OtherWay | null };

/**
 * Each key once: six semitones up and six down are one key, an octave apart.
 *
 * @param keys the best first
 * @param goAlike whether the part goes as well in two of them
 */
export const joinWays = <Key extends { readonly semitones: number }>(
  keys: readonly Key[],
  goAlike: (a: Key, b: Key) => boolean,
): readonly InEitherWay<Key>[] => {
  const other = (key: Key): Key | undefined =>
    keys.find(({ semitones }) => Math.abs(semitones - key.semitones) === 12);
  return keys.flatMap((key, at): readonly InEitherWay<Key>[] => {
    const way = other(key);
    if (way === undefined) return [{ ...key, otherWay: null }];
    if (keys.indexOf(way) < at) return [];
    return [{ ...key, otherWay: { semitones: way.semitones, isAsGood: goAlike(key, way) } }];
  });
};
