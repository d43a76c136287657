import { useState } from 'preact/hooks';
import { type Decisions, firstFixes, type PedalFinding, type Plan } from '../../../../../engine/index.ts';
import { STRINGS } from '../../../strings/strings.ts';
import type { DecisionActions } from '../../decisions/decision-actions.ts';
import type { PlannedPart } from '../../planner/planned-part.ts';
import { comparePedalPlans } from '../../variants/pedal-plans.ts';
import { likeChanges } from '../like-findings.ts';
import { Applicable } from './fixes.tsx';

const words = STRINGS.findings;

/** The fix of findings that are alike, taken at all their places in one step. */
export const TakenAtAll = ({
  part,
  findings,
  actions,
  onTake,
}: {
  readonly part: PlannedPart;
  /** Alike: they have the same fix. */
  readonly findings: readonly PedalFinding[];
  readonly actions: DecisionActions;
  readonly onTake: (taken: TakenFix) => void;
}) => {
  const fixes = findings.flatMap(firstFixes);
  if (fixes.length < 2) return null;
  const sentence = words.atAll(findings[0]!.code, likeChanges(findings[0]!), fixes.length);
  return (
    <ul class="fixes">
      <Applicable
        {...{ part, actions }}
        finding={findings[0]!}
        fix={{ sentence, changes: fixes.flatMap(({ changes }) => changes) }}
        apply={words.takeAtAll(fixes.length)}
        onApply={(decisions) => onTake({ decisions, before: part.plan })}
      />
    </ul>
  );
};

/** A fix that was taken: what was decided with it, and the plan without it. */
interface TakenFix {
  readonly decisions: Decisions;
  readonly before: Plan;
}

/** What a fix that was taken at several places came to, once it is planned with, until something else is decided. */
export const useOutcome = (part: PlannedPart, decisions: Decisions) => {
  const [taken, expect] = useState<TakenFix | null>(null);
  const isPlanned = taken !== null && taken.decisions === decisions && taken.before !== part.plan;
  const told = isPlanned
    ? words.cameTo(
        comparePedalPlans({ plan: taken.before, bars: part.bars }, '', part.plan).rows.filter(
          ([, before, after]) => before !== after,
        ),
      )
    : '';
  return { expect, told };
};
