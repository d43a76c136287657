import { DEFAULT_OPTIONS, type PlanOptions } from '../../../engine/plan/options.ts';
import type { PlacedWork } from '../../../engine/work/place-work.ts';
import type { PlanChoices } from './choices.ts';

/** The planner's options for what the user decided and chose. */
export const planOptionsOf = (
  { pins, respelled, leftOut }: PlacedWork,
  { footRestSeconds, ...chosen }: PlanChoices,
): PlanOptions => ({
  ...DEFAULT_OPTIONS,
  ...chosen,
  weights: { ...DEFAULT_OPTIONS.weights, footRestSeconds },
  pins,
  respelled,
  leftOut,
});
