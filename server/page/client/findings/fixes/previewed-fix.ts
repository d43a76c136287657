import { createContext } from 'preact';
import { useContext, useEffect, useMemo, useState } from 'preact/hooks';
import type { Decisions, Move, PedalFinding, Plan } from '../../../../../engine/index.ts';
import { type Solved, solvedPlaces, toldOfPedals } from '../../decisions/troubles.ts';
import type { Ask } from '../../planner/engine-client.ts';
import type { PlannedPart } from '../../planner/planned-part.ts';
import type { ComparedPlan } from '../../variants/compared-plan.ts';
import { comparePedalPlans } from '../../variants/pedal-plans.ts';

/** A fix that is not made yet. */
export interface ProposedFix {
  /** What is to be done, in a sentence. */
  readonly sentence: string;
  /** All that would be decided then. */
  readonly decisions: Decisions;
  readonly finding: PedalFinding;
}

/** A fix that the score and the chart show before it is made. */
export interface PreviewedFix {
  /** The sentence of the fix that is to be shown; null for none. */
  readonly sentence: string | null;
  /** What comes of it; null until that is worked out. */
  readonly compared: ComparedPlan<Move> | null;
  /** What can be played then; null for no more than now. */
  readonly solved: Solved | null;
  readonly show: (fix: ProposedFix | null) => void;
}

const Previewed = createContext<PreviewedFix | null>(null);

/** Around everything that offers fixes. */
export const PreviewedFixProvider = Previewed.Provider;

/** Null where fixes are not previewed. */
export const usePreviewedFix = (): PreviewedFix | null => useContext(Previewed);

/**
 * Plans with a fix, beside the user's own plan, until another plan takes its place.
 *
 * @param onShow the finding is to be looked at: an index
 */
export const useFixPreview = <Choices>(
  part: PlannedPart,
  choices: Choices,
  planOther: Ask<Choices, Plan>,
  onShow: (finding: number) => void,
): PreviewedFix => {
  const [wanted, setWanted] = useState<ProposedFix | null>(null);
  const [planned, setPlanned] = useState<{ readonly fix: ProposedFix; readonly plan: Plan } | null>(null);
  useEffect(() => setWanted(null), [part]);
  const outcome = useMemo(() => {
    if (planned === null || planned.fix !== wanted) return { compared: null, solved: null };
    const [now, then] = [part.plan, planned.plan].map(({ findings }) => toldOfPedals(findings));
    return {
      compared: comparePedalPlans(part, planned.fix.sentence, planned.plan),
      solved: solvedPlaces(now!, then!),
    };
  }, [part, planned, wanted]);
  return {
    sentence: wanted?.sentence ?? null,
    ...outcome,
    show: (fix) => {
      setWanted(fix);
      if (fix === null) return;
      onShow(part.plan.findings.indexOf(fix.finding));
      planOther(fix.decisions, choices, (plan) => setPlanned({ fix, plan }));
    },
  };
};
