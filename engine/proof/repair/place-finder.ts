import { bisectLeft } from 'd3-array';
import { equals, type Rational, subtract, toNumber } from '../../music/rational.ts';
import { beatAt } from '../../score/bars/beats.ts';
import type { Score } from '../../score/model/score.ts';
import { isPlace, type Moment, type Moments } from '../../time/moments.ts';
import { isInside, type MarkingWindow } from '../letter/letter-track.ts';
import type { FixPlace } from '../model.ts';

/** A moment that is no grace note's, and which of all moments it is. */
export type OnsetMoment = Moment & { readonly index: number };

/** What finding places for markings of either harp begins with. */
export interface PlaceFinder {
  readonly start: FixPlace;
  readonly at: (bar: number, at: Rational) => FixPlace;
  /** Beats about a place, up to some bars away, the nearest first. */
  readonly about: (at: Rational, bar: number, bars: number) => readonly FixPlace[];
  /** The last moments of a window, the latest first. */
  readonly lastIn: (window: MarkingWindow) => readonly OnsetMoment[];
}

/** As many places as are kept of a window. */
const MOST_PLACES = 24;

const distance = (a: Rational, b: Rational): number => Math.abs(toNumber(subtract(a, b)));

export const createPlaceFinder = (score: Score, moments: Moments): PlaceFinder => {
  const onsets = moments.all.flatMap((moment, index) => (isPlace(moment) ? [{ ...moment, index }] : []));
  const times = onsets.map(({ at }) => toNumber(at));
  const placeAt = (bar: number, at: Rational): FixPlace => ({ at, bar, beat: beatAt(score.bars[bar]!, at) });
  const firstBar = score.playOrder[0] ?? 0;
  return {
    start: placeAt(firstBar, score.bars[firstBar]!.onset),
    at: placeAt,
    about: (at, bar, bars) =>
      onsets
        .filter((moment) => moment.onBeat && Math.abs(moment.bar - bar) <= bars && !equals(moment.at, at))
        .map((moment) => placeAt(moment.bar, moment.at))
        .sort((a, b) => distance(a.at, at) - distance(b.at, at)),
    lastIn: (window) => {
      const end = bisectLeft(times, toNumber(window.until) + 1e-9);
      return onsets
        .slice(Math.max(0, end - MOST_PLACES), end)
        .filter(({ at }) => isInside(window, at))
        .reverse();
    },
  };
};

/** Time before its note from which a change is comfortable, in seconds (common practice, no source). */
const COMFORTABLE_SECONDS = 0.5;

/** Prices of a moment by itself: at the note, close to it; farther ahead a little more with each second; off the beat. */
const PRICES = { atNote: 20, close: 8, offBeat: 6 };

/** What a moment costs by how far before its note it is, and by whether it is a beat. @param lead in seconds */
export const priceOfLead = (lead: number, onBeat: boolean): number =>
  (lead === 0 ? PRICES.atNote : lead < COMFORTABLE_SECONDS ? PRICES.close : Math.min(PRICES.atNote, lead)) +
  (onBeat ? 0 : PRICES.offBeat);
