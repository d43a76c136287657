import { type Decisions, NO_DECISIONS } from '../../../../engine/index.ts';
import { STRINGS } from '../../strings/strings.ts';
import type { PlannedPart } from '../planner/planned-part.ts';
import { addDecision, type Decision, dropDecision } from './decision-edits.ts';
import { describeDecision } from './decision-words.ts';
import type { DecisionAct } from './history/decision-history.ts';

/** What the user has decided, and ways to decide more. */
export interface DecisionActions {
  readonly decisions: Decisions;
  /** Changes the decisions under a name that undoing will tell. */
  readonly change: (name: string, decisions: Decisions) => void;
  readonly decide: (decision: Decision) => void;
  readonly remove: (decision: Decision) => void;
  readonly startOver: () => void;
  /** Null where nothing is tried out. */
  readonly tryOut: TryOut | null;
}

/** Plans with other decisions, and tells what could not be played then, in sentences; only the latest is answered. */
export type TryOut = (decisions: Decisions, onTold: (trouble: readonly string[]) => void) => void;

export const createDecisionActions = (
  part: Pick<PlannedPart, 'bars'>,
  decisions: Decisions,
  act: (act: DecisionAct) => void,
  tryOut: TryOut | null = null,
): DecisionActions => {
  const change = (name: string, changed: Decisions): void => act({ kind: 'do', name, decisions: changed });
  return {
    decisions,
    change,
    decide: (decision) => change(describeDecision(part, decision), addDecision(decisions, decision)),
    remove: (decision) =>
      change(STRINGS.decisions.removed(describeDecision(part, decision)), dropDecision(decisions, decision)),
    startOver: () => change(STRINGS.decisions.allDropped, NO_DECISIONS),
    tryOut,
  };
};
