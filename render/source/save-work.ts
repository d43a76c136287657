import { isWorkEmpty, type Work } from '../../engine/decisions/model.ts';
import { readSavedWork } from '../../engine/decisions/read-work.ts';
import { workInstruction } from '../../engine/decisions/write-work.ts';
import type { Score } from '../../engine/score/model.ts';
import type { Edit } from '../edit.ts';
import { cutWithSpace, insertBefore } from './insertion.ts';

/**
 * Edits that save the user's work at the end of the file, in the place of what was saved there before; without work
 * nothing stays of it.
 */
export const saveWorkEdits = (score: Score, work: Work): readonly Edit[] => {
  const { text, root } = score.source;
  const spans = readSavedWork(score).map(({ span }) => span);
  if (isWorkEmpty(work)) return spans.map((span) => cutWithSpace(text, span));
  const put = workInstruction(score, work);
  const [first, ...more] = spans;
  return first === undefined
    ? [insertBefore(text, root.inner.end, put)]
    : [{ ...first, put }, ...more.map((span) => cutWithSpace(text, span))];
};
