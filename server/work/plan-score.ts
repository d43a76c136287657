import type { Plan } from '../../engine/plan/model.ts';
import { DEFAULT_OPTIONS } from '../../engine/plan/options.ts';
import { planPedals } from '../../engine/plan/plan.ts';
import type { Score } from '../../engine/score/model.ts';
import { openScore } from '../../engine/score/open.ts';
import { withoutOwnMarkings } from '../../render/source/own-markings.ts';
import { type PlanChoice, planOptionsFor } from '../api/options.ts';
import type { Outcome } from '../service-problem.ts';
import type { StageClock } from './stage-clock.ts';

/** A score and its plan. */
export interface PlannedScore {
  readonly score: Score;
  readonly plan: Plan;
}

/** The part to read as the harp, where the user names one. */
export const partOf = (choice: { readonly part?: string }) =>
  choice.part === undefined ? {} : { part: choice.part };

/** Reads a score; markings of an earlier annotation by us are left out, since the new plan takes their place. */
export const planScore = (
  bytes: Uint8Array,
  choice: PlanChoice,
  clock: StageClock,
): Outcome<PlannedScore> => {
  clock.begin('read', null);
  const opened = openScore(bytes, partOf(choice));
  if (!opened.ok) return opened;
  const score = withoutOwnMarkings(opened.value);
  clock.begin('plan', score.bars.length);
  const options = planOptionsFor(choice, score);
  if (!options.ok) return options;
  return { ok: true, value: { score, plan: planPedals(score, { ...DEFAULT_OPTIONS, ...options.value }) } };
};
