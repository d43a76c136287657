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
  const scores = new Map<string, Score>();
  return {
    find: (key) => {
      const score = scores.get(key);
      if (score === undefined) return undefined;
      scores.delete(key);
      scores.set(key, score);
      return score;
    },
    keep: (key, score) => {
      if (score.source.text.length > LONGEST_KEPT) return;
      scores.set(key, score);
      const [oldest] = scores.keys();
      if (scores.size > MOST_SCORES && oldest !== undefined) scores.delete(oldest);
    },
  };
};

/** @param choice what of the file is read, and as what */
export const scoreKey = (bytes: Uint8Array, choice: readonly (string | null | undefined)[]): string =>
  `${createHash('sha256').update(bytes).digest('base64')} ${JSON.stringify(choice)}`;
