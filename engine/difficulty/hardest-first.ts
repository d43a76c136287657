import { GRADES, type PassageDifficulty } from './model.ts';

/** Which of two passages is the harder: by its grade, then by the most changes in ten seconds, then by those in a minute. */
export const hardestFirst = (
  a: Pick<PassageDifficulty, 'grade' | 'measures'>,
  b: Pick<PassageDifficulty, 'grade' | 'measures'>,
): number =>
  GRADES.indexOf(b.grade) - GRADES.indexOf(a.grade) ||
  b.measures.mostInTenSeconds - a.measures.mostInTenSeconds ||
  b.measures.changesPerMinute - a.measures.changesPerMinute;
