import { type Plan, toNumber } from '../../../../engine/index.ts';
import type { PlannedPart } from '../planner/planned-part.ts';
import { comparePlans, movesOfOther, type PlanDifference } from './plan-difference.ts';

/** A plan of the open part that the user's own is compared with. */
export interface OtherPlan {
  /** As the user chose it, in words. */
  readonly name: string;
  readonly plan: Plan;
}

/** What differs, and from what. */
export interface ComparedPlan extends OtherPlan {
  readonly difference: PlanDifference;
}

export const compareWith = ({ plan }: Pick<PlannedPart, 'plan'>, other: OtherPlan): ComparedPlan => ({
  ...other,
  difference: comparePlans(plan, other.plan),
});

/** The moves that only the other plan makes, or makes then, in quarters. */
export const ghostsOf = ({ plan, difference }: ComparedPlan) =>
  movesOfOther(difference).map((at) => ({ move: plan.moves[at]!, quarters: toNumber(plan.moves[at]!.at) }));
