import type { Score } from '../../../engine/index.ts';
import { createMemory, type Memory } from './drawing-memory.ts';

/** Keeps what was made of scores with them: who has the score has it, and it goes when the score goes. */
export interface ScoreMemory<Kept> {
  readonly find: (score: Score, key: string) => Kept | undefined;
  readonly keep: (score: Score, key: string, kept: Kept) => void;
}

/** @param most of one score; what was not wanted for the longest goes first */
export const createScoreMemory = <Kept>(most: number): ScoreMemory<Kept> => {
  const known = new WeakMap<Score['notes'], { score: Score; made: Memory<Kept> }>();
  const madeOf = (score: Score): Memory<Kept> | undefined => {
    const found = known.get(score.notes);
    return found !== undefined && isSame(found.score, score) ? found.made : undefined;
  };
  return {
    find: (score, key) => madeOf(score)?.find(key),
    keep: (score, key, kept) => {
      const made = madeOf(score) ?? createMemory<Kept>(most, () => 1);
      made.keep(key, kept);
      known.set(score.notes, { score, made });
    },
  };
};

/** Whether two are one score, whatever else is told of either. */
const isSame = (one: Score, other: Score): boolean =>
  (Object.keys(one) as (keyof Score)[]).every((what) => what === 'remarks' || one[what] === other[what]);
