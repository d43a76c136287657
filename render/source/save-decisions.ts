import {
  type Decisions,
  decisionsInstruction,
  hasNoDecisions,
  readSavedDecisions,
  type Score,
} from '../../engine/index.ts';
import type { Edit } from '../edit.ts';
import { cutWithSpace, insertBefore } from './insertion/insertion.ts';

/**
 * Edits that save the user's decisions at the end of the file, in the place of what was saved there before; without decisions
 * nothing stays of it.
 */
export const saveDecisionsEdits = (score: Score, decisions: Decisions): readonly Edit[] => {
  const { text, root } = score.source;
  const spans = readSavedDecisions(score).map(({ span }) => span);
  if (hasNoDecisions(decisions)) return spans.map((span) => cutWithSpace(text, span));
  const put = decisionsInstruction(score, decisions);
  const [first, ...more] = spans;
  return first === undefined
    ? [insertBefore(text, root.inner.end, put)]
    : [{ ...first, put }, ...more.map((span) => cutWithSpace(text, span))];
};
