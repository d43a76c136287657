import { type Difficulty, SIDES } from '../../engine/index.ts';
import type { Words } from '../words/worded.ts';

/**
 * How hard a part or a passage is. The grade goes by all of it: where it is easy and yet a hand has too much somewhere,
 * or a place cannot be played, both are said.
 */
export const tellGrade = (
  { grade, playable, measures }: Pick<Difficulty, 'grade' | 'playable' | 'measures'>,
  { difficulty }: Words,
): string => {
  const isEven = playable && SIDES.every((side) => measures.barsOverloaded[side] === 0);
  const told = difficulty.grades[grade];
  return grade !== 'easy' || isEven ? told : difficulty.notEverywhere(told);
};
