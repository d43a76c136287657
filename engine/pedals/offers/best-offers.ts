import { isSameChange } from '../fixes/fix-trials.ts';
import { compareOffers } from './fix-weights.ts';
import type { FixKind, OfferedFix } from './model.ts';
import { areSameChanges, type Candidate } from './note-candidates.ts';
import { withoutOutdone } from './outdone.ts';

/** Each set of changes once. */
export const distinct = (candidates: readonly Candidate[]): readonly Candidate[] =>
  candidates.filter((each, i) => candidates.findIndex((other) => areSameChanges(other, each)) === i);

/** Without those that change more notes than another does which helps as well; more are respelled where that spares moves. */
export const withoutMore = (offers: readonly OfferedFix[]): readonly OfferedFix[] =>
  offers.filter(
    (offer) =>
      !('changes' in offer) ||
      !offers.some(
        (other) =>
          'changes' in other &&
          isPartOf(other.changes, offer.changes) &&
          !(offer.kind === 'respell' && offer.moreMoves < other.moreMoves),
      ),
  );

const isPartOf = (some: Candidate, all: Candidate): boolean =>
  some.length < all.length && some.every((change) => all.some((other) => isSameChange(change, other)));

/** Ways of one kind that are offered, none at more than so much above the best, as a share of its cost. */
const MOST_OF_A_KIND = 2;
const MOST_ABOVE_THE_BEST = 1;

/** @param own what the finding of the place offers itself: that stays, whatever is better, so that its price is told exactly */
export const bestOfEach = (
  offers: readonly OfferedFix[],
  own: readonly Candidate[],
): readonly OfferedFix[] => {
  const isOwn = (offer: OfferedFix): boolean =>
    'changes' in offer &&
    offer.kind !== 'second-harp' &&
    own.some((changes) => areSameChanges(changes, offer.changes));
  const taken = new Map<FixKind, { readonly best: number; readonly count: number }>();
  const good = new Set(withoutOutdone(offers));
  return [...offers].sort(compareOffers).filter((offer) => {
    if (!good.has(offer)) return isOwn(offer);
    const { kind, cost } = offer;
    const { best, count } = taken.get(kind) ?? { best: cost, count: 0 };
    taken.set(kind, { best, count: count + 1 });
    const isGood = count < MOST_OF_A_KIND && cost <= best + MOST_ABOVE_THE_BEST * Math.abs(best);
    return isGood || isOwn(offer);
  });
};
