import { type Decisions, NO_DECISIONS } from '../../../../engine/index.ts';
import { STRINGS } from '../../strings.ts';
import type { PlannedPart } from '../planner/planned-part.ts';
import { addDecision, type Decision, dropDecision } from './decision-edits.ts';
import type { DecisionAct } from './decision-history.ts';
import { describeDecision } from './decision-words.ts';

/** What the user has decided, and ways to decide more. */
export interface Desk {
  readonly decisions: Decisions;
  /** Changes the decisions under a name that undoing will tell. */
  readonly change: (name: string, decisions: Decisions) => void;
  readonly decide: (decision: Decision) => void;
  readonly takeBack: (decision: Decision) => void;
  readonly startAfresh: () => void;
}

export const openDesk = (
  part: Pick<PlannedPart, 'bars'>,
  decisions: Decisions,
  act: (act: DecisionAct) => void,
): Desk => {
  const change = (name: string, changed: Decisions): void => act({ kind: 'do', name, decisions: changed });
  return {
    decisions,
    change,
    decide: (decision) => change(describeDecision(part, decision), addDecision(decisions, decision)),
    takeBack: (decision) =>
      change(
        STRINGS.decisions.takenBack(describeDecision(part, decision)),
        dropDecision(decisions, decision),
      ),
    startAfresh: () => change(STRINGS.decisions.allDropped, NO_DECISIONS),
  };
};
