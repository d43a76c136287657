import { bisectLeft } from 'd3-array';
import type { LeverContext } from '../../levers/context.ts';
import { equals, type Rational, subtract, toNumber } from '../../music/rational.ts';
import { beatAt } from '../../score/bars/beats.ts';
import type { FixPlace } from '../model.ts';
import { isInside } from '../repair/letter-track.ts';
import type { Places } from '../repair/place-edits.ts';

/** As many places as are kept of a window. */
const MOST_PLACES = 24;

/** Time before its note from which a change is comfortable, in seconds (common practice, no source). */
const COMFORTABLE_SECONDS = 0.5;

/** Prices of a place: with no hand free, with the right hand alone, at the note itself, close to it, off the beat. */
const PRICES = { noHand: 100, rightHand: 4, atNote: 20, close: 8, offBeat: 6 };

/** Places for lever markings: where a hand is free, well ahead of the note. */
export const findLeverPlaces = ({
  score,
  moments,
  free,
}: Pick<LeverContext, 'score' | 'moments' | 'free'>): Places => {
  const onsets = moments.all.flatMap((moment, index) => (moment.grace === 0 ? [{ ...moment, index }] : []));
  const times = onsets.map(({ at }) => toNumber(at));
  const placeAt = (bar: number, at: Rational): FixPlace => ({ at, bar, beat: beatAt(score.bars[bar]!, at) });
  const firstBar = score.playOrder[0] ?? 0;
  return {
    start: placeAt(firstBar, score.bars[firstBar]!.onset),
    at: placeAt,
    within: (_letter, _position, window) => {
      const end = bisectLeft(times, toNumber(window.until) + 1e-9);
      const own = onsets
        .slice(Math.max(0, end - MOST_PLACES), end)
        .filter(({ at }) => isInside(window, at))
        .reverse();
      const note = own[0]?.seconds ?? 0;
      const worth = ({ index, seconds, onBeat }: (typeof own)[number]): number => {
        const lead = note - seconds;
        const isFree = (hand: 'left' | 'right'): boolean => free[hand].isFree[index] === 1;
        return (
          (isFree('left') ? 0 : isFree('right') ? PRICES.rightHand : PRICES.noHand) +
          (lead === 0
            ? PRICES.atNote
            : lead < COMFORTABLE_SECONDS
              ? PRICES.close
              : Math.min(PRICES.atNote, lead)) +
          (onBeat ? 0 : PRICES.offBeat)
        );
      };
      const ranked = own
        .map((moment) => ({ moment, price: worth(moment) }))
        .sort((a, b) => a.price - b.price)
        .map(({ moment: { bar, at } }) => placeAt(bar, at));
      return ranked.length > 0 ? ranked : [placeAt(window.bar, window.until)];
    },
    about: (at, bar, bars) =>
      onsets
        .filter((moment) => moment.onBeat && Math.abs(moment.bar - bar) <= bars && !equals(moment.at, at))
        .map((moment) => placeAt(moment.bar, moment.at))
        .sort((a, b) => distance(a.at, at) - distance(b.at, at)),
  };
};

const distance = (a: Rational, b: Rational): number => Math.abs(toNumber(subtract(a, b)));
