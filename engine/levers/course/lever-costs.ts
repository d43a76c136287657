import type { Side } from '../../harp/side.ts';
import { type NeedTiming, needTimingOf } from '../../sounding/need-timing.ts';
import type { CostTerm } from '../../time/window.ts';
import type { LeverContext } from '../context.ts';
import type { LeverProblem } from '../problem.ts';
import type { LeverWeightName } from '../weights.ts';

/** Why a change costs what it does. */
export interface LeverCosts {
  /** What speaks against moving the lever of a string (by its index) at a moment. */
  readonly termsAt: (string: number, moment: number) => readonly CostTerm[];
  /** Their sum with the price of a change. */
  readonly priceAt: (string: number, moment: number) => number;
  readonly handAt: (moment: number) => Side;
}

export const buildLeverCosts = (context: LeverContext, { strings }: LeverProblem): LeverCosts => {
  const { weights } = context.options;
  const handAt = handsByMoment(context);
  const around = strings.map(({ needs }) => needTimingOf(needs, context));
  const termsAt = (string: number, moment: number): CostTerm[] => [
    ...handTerms(context, moment, handAt(moment)),
    ...stringTerms(context, moment, around[string]!),
  ];
  const known = strings.map(() => new Map<number, number>());
  return {
    termsAt,
    handAt,
    priceAt: (string, moment) => {
      const price =
        known[string]!.get(moment) ??
        termsAt(string, moment).reduce((sum, { amount }) => sum + amount, weights.change);
      known[string]!.set(moment, price);
      return price;
    },
  };
};

/** The left hand, but for moments at which only the right is free and may be taken. */
const handsByMoment =
  ({ free, options }: LeverContext): ((moment: number) => Side) =>
  (moment) =>
    options.rightHand && free.left[moment] === 0 && free.right[moment] === 1 ? 'right' : 'left';

const handTerms = (
  { free, moments, options: { weights } }: LeverContext,
  moment: number,
  hand: Side,
): CostTerm[] => {
  const terms: CostTerm[] = [];
  if (free[hand][moment] === 0) terms.push({ name: 'noFreeHand', amount: weights.noTime });
  else if (hand === 'right') terms.push({ name: 'rightHand', amount: weights.rightHand });
  const { onBeat, notesPlucked } = moments.all[moment]!;
  if (notesPlucked > 0) terms.push({ name: 'otherHandPlucks', amount: weights.otherHandPlucks });
  if (!onBeat) {
    const name: LeverWeightName = notesPlucked === 0 ? 'betweenBeats' : 'offBeat';
    terms.push({ name, amount: weights[name] });
  }
  return terms;
};

/** Past this a change is for the next section or the next time round, and no farther. */
const FARTHEST_AHEAD_SECONDS = 60;

const stringTerms = (
  { options: { weights } }: LeverContext,
  moment: number,
  around: NeedTiming,
): CostTerm[] => {
  const terms: CostTerm[] = [];
  const charge = (name: LeverWeightName, share: number): void => {
    if (share > 0) terms.push({ name, amount: weights[name] * share });
  };
  const lead = around.untilNeed[moment]!;
  if (around.notatedLeft[moment]! > 1e-6) charge('stringSounding', 1);
  else charge('perSecondRinging', around.audibleLeft[moment]!);
  // Dearer than two changes too close together, which the other hand may fix.
  if (lead === 0) terms.push({ name: 'noLead', amount: weights.noTime + weights.rightHand });
  else charge('shortLead', 1 - lead / weights.comfortableLeadSeconds);
  charge('perSecondAhead', Math.min(lead, FARTHEST_AHEAD_SECONDS));
  return terms;
};
