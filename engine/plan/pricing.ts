import type { Position } from '../harp/setting.ts';
import type { CostTerm } from './model.ts';
import type { Moment } from './moments.ts';
import type { Surroundings } from './surroundings.ts';
import type { WeightName, Weights } from './weights.ts';

/**
 * What speaks against a move of one pedal at a moment, term by term.
 *
 * @returns only the terms that apply; their sum is the price that the plan minimises
 */
export const costTerms = (
  index: number,
  moment: Moment,
  from: Position,
  to: Position,
  around: Surroundings,
  weights: Weights,
): CostTerm[] => {
  const terms: CostTerm[] = [];
  const charge = (name: WeightName, share: number): void => {
    if (share > 0) terms.push({ name, amount: weights[name] * share });
  };
  const sounding = around.notatedLeft[index]!;
  const lead = around.untilNeed[index]!;
  if (sounding > 1e-6) charge('stringSounding', 1 + Math.min(1, sounding / 4));
  else charge('stringRinging', Math.min(1, around.audibleLeft[index]!));
  if (lead === 0) charge('noLead', 1);
  else charge('shortLead', 1 - lead / weights.comfortableLeadSeconds);
  if (!moment.onBeat) charge(moment.notesPlucked === 0 ? 'betweenBeats' : 'offBeat', 1);
  if (moment.handsBusy) charge('handsBusy', 1);
  charge('perNotePlucked', moment.notesPlucked);
  charge('perSecondAhead', Math.min(lead, weights.farthestAheadSeconds));
  if (Math.abs(to - from) === 2) charge('twoNotchesInHaste', 1 - lead);
  return terms;
};
