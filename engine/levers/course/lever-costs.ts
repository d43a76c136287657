import { stepOf } from '../../music/pitch.ts';
import type { OneTime } from '../../score/bars/one-time.ts';
import { type NeedTiming, needTimingOf } from '../../sounding/need-timing.ts';
import { needTimingAt } from '../../sounding/timing-by-time.ts';
import type { CostTerm } from '../../time/window.ts';
import type { LeverContext } from '../context.ts';
import type { LeverProblem } from '../problem.ts';
import { placeInPause } from '../strings/place-in-pause.ts';
import type { PlacedLeverNeed } from '../strings/strings.ts';
import type { LeverWeightName } from '../weights.ts';
import { handOfSlot, momentOfSlot, type Slot, slotOf } from './slots.ts';

/** Why a change costs what it does, at one time of playing or, with null for the time, at each. */
export interface LeverCosts {
  /** What speaks against moving the lever of a string (by its index) with a hand at a moment. */
  readonly termsAt: (string: number, slot: Slot, time: OneTime | null) => readonly CostTerm[];
  /** Their sum with the price of a change. */
  readonly priceAt: (string: number, slot: Slot, time: OneTime | null) => number;
  /** The hands that may set the lever of a string at a moment. */
  readonly slotsAt: (string: number, moment: number) => readonly Slot[];
  /** Seconds from a moment to the next note of a string, when the part is played; 0 at a note, infinite after the last. */
  readonly leadAt: (string: number, moment: number, time: OneTime | null) => number;
  /** The price with the hand for which it is least. */
  readonly leastPriceAt: (string: number, moment: number, time: OneTime | null) => number;
}

export const buildLeverCosts = (context: LeverContext, { strings, pinned }: LeverProblem): LeverCosts => {
  const { weights } = context;
  const handsAt = listHands(context);
  const aroundAt = strings.map(({ needs }) => timingsOf(needs, context));
  // Between two movements all levers are set for the second: nothing speaks against that.
  const isSetInPause = (string: number, moment: number, around: NeedTiming): boolean => {
    const { pause } = context.moments.all[moment]!;
    return pause?.place === placeInPause(strings[string]!.string) && around.untilNeed[moment]! <= pause.reach;
  };
  const termsAt = (string: number, slot: Slot, time: OneTime | null): CostTerm[] => {
    const moment = momentOfSlot(slot);
    const around = aroundAt[string]!(time);
    if (isSetInPause(string, moment, around)) return [];
    return [
      ...handTerms(context, slot),
      ...(pinned.isForbidden(moment) ? [{ name: 'forbidden', amount: weights.forbidden }] : []),
      ...stringTerms(context, moment, around),
    ];
  };
  const known = strings.map(() => ({ each: new Map(), first: new Map(), later: new Map() }));
  const priceAt = (string: number, slot: Slot, time: OneTime | null): number => {
    const own: Map<Slot, number> = known[string]![time ?? 'each'];
    const price =
      own.get(slot) ?? termsAt(string, slot, time).reduce((sum, { amount }) => sum + amount, weights.change);
    own.set(slot, price);
    return price;
  };
  const pinnedHands = strings.map(({ string }) => pinned.hands.get(stepOf(string)));
  const slotsAt = (string: number, moment: number): readonly Slot[] => {
    const hand = pinnedHands[string]?.get(moment);
    return hand === undefined ? handsAt(moment) : [slotOf(moment, hand)];
  };
  return {
    termsAt,
    priceAt,
    slotsAt,
    leadAt: (string, moment, time) => aroundAt[string]!(time).untilNeed[moment]!,
    leastPriceAt: (string, moment, time) =>
      slotsAt(string, moment).reduce(
        (least, slot) => Math.min(least, priceAt(string, slot, time)),
        Number.POSITIVE_INFINITY,
      ),
  };
};

/** What surrounds the moments of a string: on all passes, or at one time of playing, worked out when that is asked. */
const timingsOf = (
  needs: readonly PlacedLeverNeed[],
  context: LeverContext,
): ((time: OneTime | null) => NeedTiming) => {
  const each = needTimingOf(needs, context);
  const known = new Map<OneTime, NeedTiming>();
  return (time) => {
    if (time === null) return each;
    const timing = known.get(time) ?? needTimingAt(needs, context, time);
    known.set(time, timing);
    return timing;
  };
};

/** The left hand, and the right where it is free; the right alone where the left has to play. */
const listHands = ({ free }: LeverContext): ((moment: number) => readonly Slot[]) => {
  const known = new Map<number, readonly Slot[]>();
  return (moment) => {
    const [left, right] = [slotOf(moment, 'left'), slotOf(moment, 'right')];
    const isRightFree = free.right.isFree[moment] === 1;
    const found = known.get(moment) ?? [
      ...(free.left.isFree[moment] === 1 || !isRightFree ? [left] : []),
      ...(isRightFree ? [right] : []),
    ];
    known.set(moment, found);
    return found;
  };
};

const handTerms = (
  { free, moments, weights, options: { leverSeconds } }: LeverContext,
  slot: Slot,
): CostTerm[] => {
  const terms: CostTerm[] = [];
  const charge = (name: LeverWeightName, share: number): void => {
    if (share > 0) terms.push({ name, amount: weights[name] * share });
  };
  const [moment, hand] = [momentOfSlot(slot), handOfSlot(slot)];
  const { isFree, toNoteSeconds } = free[hand];
  if (isFree[moment] === 0) terms.push({ name: 'noFreeHand', amount: weights.noTime });
  else {
    if (hand === 'right') charge('rightHand', 1);
    charge('shortAway', 2 - toNoteSeconds[moment]! / (leverSeconds / 2));
  }
  const { onBeat, notesPlucked } = moments.all[moment]!;
  if (notesPlucked > 0) charge('otherHandPlucks', 1);
  if (!onBeat) charge(notesPlucked === 0 ? 'betweenBeats' : 'offBeat', 1);
  charge('amongQuickNotes', 1 - free.quietSeconds[moment]! / weights.quietSeconds);
  return terms;
};

/** Past this a change is for the next section or the next time round, and no farther. */
const FARTHEST_AHEAD_SECONDS = 60;

const stringTerms = ({ weights }: LeverContext, moment: number, around: NeedTiming): CostTerm[] => {
  const terms: CostTerm[] = [];
  const charge = (name: LeverWeightName, share: number): void => {
    if (share > 0) terms.push({ name, amount: weights[name] * share });
  };
  const lead = around.untilNeed[moment]!;
  if (Math.max(around.notatedLeft[moment]!, around.freshLeft[moment]!) > 1e-6) charge('stringSounding', 1);
  else charge('perSecondRinging', around.audibleLeft[moment]!);
  // Dearer than two changes too close together, which the other hand may fix.
  if (lead === 0) terms.push({ name: 'noLead', amount: weights.noTime + weights.rightHand });
  else charge('shortLead', 1 - lead / weights.comfortableLeadSeconds);
  charge('perSecondAhead', Math.min(lead, FARTHEST_AHEAD_SECONDS));
  return terms;
};
