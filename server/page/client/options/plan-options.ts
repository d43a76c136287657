import type { PlacedWork } from '../../../../engine/decisions/place-work.ts';
import { parseScordatura, type Scordatura } from '../../../../engine/harp/scordatura.ts';
import { DEFAULT_OPTIONS, type PlanOptions } from '../../../../engine/pedals/options.ts';
import type { PlanChoices } from './choices.ts';

/** Choices hold no list that cannot be read. */
const tunedAs = (text: string): Scordatura => {
  const tuned = parseScordatura(text);
  if (!tuned.ok) throw new Error(`no list of strings with cents: ${text}`);
  return tuned.value;
};

/** The planner's options for what the user decided and chose. */
export const planOptionsOf = (
  { pins, respelled, leftOut }: PlacedWork,
  { footRestSeconds, scordatura, ...chosen }: PlanChoices,
): PlanOptions => ({
  ...DEFAULT_OPTIONS,
  ...chosen,
  scordatura: tunedAs(scordatura),
  weights: { ...DEFAULT_OPTIONS.weights, footRestSeconds },
  pins,
  respelled,
  leftOut,
});
