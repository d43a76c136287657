import { type Decisions, NO_DECISIONS } from '../../../../engine/index.ts';
import { STRINGS } from '../../strings.ts';
import type { PlannedPart } from '../planner/planned-part.ts';
import { addDecision, type Decision, dropDecision } from './work-edits.ts';
import type { WorkAct } from './work-history.ts';
import { tellDecision } from './work-words.ts';

/** What the user has decided, and ways to decide more. */
export interface Desk {
  readonly work: Decisions;
  /** Changes the work under a name that undoing will tell. */
  readonly change: (name: string, work: Decisions) => void;
  readonly decide: (decision: Decision) => void;
  readonly takeBack: (decision: Decision) => void;
  readonly startAfresh: () => void;
}

export const openDesk = (
  part: Pick<PlannedPart, 'bars'>,
  work: Decisions,
  act: (act: WorkAct) => void,
): Desk => {
  const change = (name: string, changed: Decisions): void => act({ kind: 'do', name, work: changed });
  return {
    work,
    change,
    decide: (decision) => change(tellDecision(part, decision), addDecision(work, decision)),
    takeBack: (decision) =>
      change(STRINGS.work.takenBack(tellDecision(part, decision)), dropDecision(work, decision)),
    startAfresh: () => change(STRINGS.work.allDropped, NO_DECISIONS),
  };
};
