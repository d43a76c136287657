import type { LeverContext } from '../../levers/context.ts';
import type { Places } from '../repair/place-edits.ts';
import { createPlaceFinder, type OnsetMoment, priceOfLead } from '../repair/place-finder.ts';

/** Prices of a place: with no hand free, with the right hand alone. */
const PRICES = { noHand: 100, rightHand: 4 };

/** Places for lever markings: where a hand is free, well ahead of the note. */
export const findLeverPlaces = ({
  score,
  moments,
  free,
}: Pick<LeverContext, 'score' | 'moments' | 'free'>): Places => {
  const { lastIn, ...finder } = createPlaceFinder(score, moments);
  const isFree = (hand: 'left' | 'right', { index }: OnsetMoment): boolean => free[hand].isFree[index] === 1;
  return {
    ...finder,
    within: (_letter, _position, window) => {
      const own = lastIn(window);
      const note = own[0]?.seconds ?? 0;
      const priceOf = (moment: OnsetMoment): number =>
        (isFree('left', moment) ? 0 : isFree('right', moment) ? PRICES.rightHand : PRICES.noHand) +
        priceOfLead(note - moment.seconds, moment.onBeat);
      const ranked = own
        .map((moment) => ({ moment, price: priceOf(moment) }))
        .sort((a, b) => a.price - b.price)
        .map(({ moment: { bar, at } }) => finder.at(bar, at));
      return ranked.length > 0 ? ranked : [finder.at(window.bar, window.until)];
    },
  };
};
