import { NO_WORK, type Work } from '../../../../engine/decisions/model.ts';
import { STRINGS } from '../../strings.ts';
import type { PlannedPart } from '../planner/planned-part.ts';
import { addDecision, type Decision, dropDecision } from './work-edits.ts';
import type { WorkAct } from './work-history.ts';
import { tellDecision } from './work-words.ts';

/** What the user has decided, and ways to decide more. */
export interface Desk {
  readonly work: Work;
  /** Changes the work under a name that undoing will tell. */
  readonly change: (name: string, work: Work) => void;
  readonly decide: (decision: Decision) => void;
  readonly takeBack: (decision: Decision) => void;
  readonly startAfresh: () => void;
}

export const openDesk = (part: Pick<PlannedPart, 'bars'>, work: Work, act: (act: WorkAct) => void): Desk => {
  const change = (name: string, changed: Work): void => act({ kind: 'do', name, work: changed });
  return {
    work,
    change,
    decide: (decision) => change(tellDecision(part, decision), addDecision(work, decision)),
    takeBack: (decision) =>
      change(STRINGS.work.takenBack(tellDecision(part, decision)), dropDecision(work, decision)),
    startAfresh: () => change(STRINGS.work.allDropped, NO_WORK),
  };
};
