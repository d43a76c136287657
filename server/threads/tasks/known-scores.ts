import { createHash } from 'node:crypto';
import type { Score } from '../../../engine/index.ts';

/** Scores that a thread has read, by the hash of the file and of what was read of it: who works on a piece asks again and again. */
export interface KnownScores {
  readonly find: (key: string) => Score | undefined;
  readonly keep: (key: string, score: Score) => void;
}

/** How many pieces a thread holds; a large one takes some tens of megabytes, and more with its layout. */
const MOST_SCORES = 2;
/** Characters of a file that is kept; a full score of many parts is larger, and read anew. */
const LONGEST_KEPT = 6_000_000;

export const createKnownScores = (): KnownScores => {
  // A list, and no map: the tables that a map has outgrown lead to its new ones, and keep all that these hold from
  // being collected quickly.
  let kept: readonly { readonly key: string; readonly score: Score }[] = [];
  const keepFirst = (key: string, score: Score): void => {
    kept = [{ key, score }, ...kept.filter((each) => each.key !== key)].slice(0, MOST_SCORES);
  };
  return {
    find: (key) => {
      const score = kept.find((each) => each.key === key)?.score;
      if (score !== undefined) keepFirst(key, score);
      return score;
    },
    keep: (key, score) => {
      if (score.source.text.length <= LONGEST_KEPT) keepFirst(key, score);
    },
  };
};

/** @param choice what of the file is read, and as what */
export const scoreKey = (bytes: Uint8Array, choice: readonly (string | null | undefined)[]): string =>
  `${createHash('sha256').update(bytes).digest('base64')} ${JSON.stringify(choice)}`;
