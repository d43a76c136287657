import type { Position } from '../../harp/setting.ts';
import type { Surroundings } from '../../sounding/surroundings.ts';
import type { Moment } from '../../time/moments.ts';
import type { CostTerm } from '../../time/window.ts';
import type { WeightName, Weights } from '../weights.ts';

/** A move of one pedal at a moment, and all that its price goes by. */
export interface PossibleMove {
  readonly index: number;
  readonly moment: Moment;
  readonly from: Position;
  readonly to: Position;
  readonly around: Surroundings;
  readonly weights: Weights;
  /** The user forbade moves at this moment. */
  readonly forbidden: boolean;
}

/** What speaks against a move, term by term: only the terms that apply; their sum is the price that the plan minimises. */
export const costTerms = (move: PossibleMove): CostTerm[] => {
  const terms: CostTerm[] = [];
  chargeMove(move, (name, amount) => terms.push({ name, amount }));
  return terms;
};

/** The sum of a move's cost terms. */
export const priceOfMove = (move: PossibleMove): number => {
  let price = 0;
  chargeMove(move, (_name, amount) => {
    price += amount;
  });
  return price;
};

const chargeMove = (
  { index, moment, from, to, around, weights, forbidden }: PossibleMove,
  add: (name: WeightName, amount: number) => void,
): void => {
  const charge = (name: WeightName, share: number): void => {
    if (share > 0) add(name, weights[name] * share);
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
  if (forbidden) charge('forbidden', 1);
};
