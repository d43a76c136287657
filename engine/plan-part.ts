import type { HarpPlan } from './harp-plan.ts';
import { DEFAULT_LEVER_OPTIONS, type LeverOptions } from './levers/options.ts';
import { planLevers } from './levers/plan.ts';
import { DEFAULT_PLAN_OPTIONS, type PlanOptions } from './pedals/options.ts';
import { planPedals } from './pedals/plan.ts';
import type { Score } from './score/model/score.ts';

/** How a part is planned, where not by default. */
export interface HarpOptions {
  readonly plan?: Partial<PlanOptions>;
  /** Where given, the part is for the lever harp. */
  readonly levers?: Partial<LeverOptions>;
}

/** Plans a part for the harp that the options are for: the lever harp where options for its levers are given. */
export const planPart = (score: Score, { plan, levers }: HarpOptions): HarpPlan => {
  if (levers === undefined) {
    return { kind: 'pedal', plan: planPedals(score, { ...DEFAULT_PLAN_OPTIONS, ...plan }) };
  }
  const options = { ...DEFAULT_LEVER_OPTIONS, ...levers };
  return {
    kind: 'lever',
    plan: planLevers(score, options),
    profile: options.profile,
    omitted: [...options.omitted],
  };
};
