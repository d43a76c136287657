import type { Score } from '../../engine/index.ts';
import type { PreparedPart } from './prepared-part.ts';

/**
 * Keeps prepared parts with the score that they were made of: who has the score has them, and they go when it goes.
 */
export interface PartMemory {
  readonly find: (score: Score, key: string) => PreparedPart | undefined;
  readonly keep: (score: Score, key: string, part: PreparedPart) => void;
}

/** A score is laid out in some few ways at a time. */
const MOST_OF_SCORE = 3;

export const createPartMemory = (): PartMemory => {
  const kept = new WeakMap<Score['notes'], { score: Score; parts: Map<string, PreparedPart> }>();
  const partsOf = (score: Score): Map<string, PreparedPart> | undefined => {
    const found = kept.get(score.notes);
    return found !== undefined && isSame(found.score, score) ? found.parts : undefined;
  };
  return {
    find: (score, key) => partsOf(score)?.get(key),
    keep: (score, key, part) => {
      const parts = partsOf(score) ?? new Map<string, PreparedPart>();
      parts.delete(key);
      parts.set(key, part);
      const [oldest] = parts.keys();
      if (parts.size > MOST_OF_SCORE && oldest !== undefined) parts.delete(oldest);
      kept.set(score.notes, { score, parts });
    },
  };
};

/** Whether two are one score, whatever else is told of either. */
const isSame = (one: Score, other: Score): boolean =>
  (Object.keys(one) as (keyof Score)[]).every((what) => what === 'remarks' || one[what] === other[what]);
