import { bisectLeft } from 'd3-array';
import type { Letter } from '../../music/pitch.ts';
import { equals, type Rational, subtract, toNumber } from '../../music/rational.ts';
import type { Plan } from '../../pedals/model.ts';
import { beatAt } from '../../score/bars/beats.ts';
import type { Score } from '../../score/model.ts';
import type { Moments } from '../../time/moments.ts';
import type { FixPlace } from '../model.ts';
import { isInside, type MarkingWindow } from './letter-track.ts';

/** Finds places for markings. */
export interface Places {
  /** Where a change may be printed, the best first; at least one. */
  readonly within: (letter: Letter, position: number, window: MarkingWindow) => readonly FixPlace[];
  readonly start: FixPlace;
  readonly at: (bar: number, at: Rational) => FixPlace;
  /** Beats about a place, up to some bars away, the nearest first. */
  readonly about: (at: Rational, bar: number, bars: number) => readonly FixPlace[];
}

/** As many places as are kept of a window. */
const MOST_PLACES = 24;

/** Time before its note from which a change is comfortable, in seconds (common practice, no source). */
const COMFORTABLE_SECONDS = 0.5;

/** @param plan for the notes alone: where it has the change, a player would want it */
export const findPlaces = (score: Score, moments: Moments, plan: () => Plan): Places => {
  const onsets = moments.all.filter(({ grace }) => grace === 0);
  const times = onsets.map(({ at }) => toNumber(at));
  const placeAt = (bar: number, at: Rational): FixPlace => ({ at, bar, beat: beatAt(score.bars[bar]!, at) });
  const start = placeAt(score.playOrder[0] ?? 0, score.bars[score.playOrder[0] ?? 0]!.onset);
  return {
    start,
    at: placeAt,
    within: (letter, position, window) => {
      const end = bisectLeft(times, toNumber(window.until) + 1e-9);
      const own = onsets
        .slice(Math.max(0, end - MOST_PLACES), end)
        .filter(({ at }) => isInside(window, at))
        .reverse();
      const planned = plan().moves.find(
        (move) => move.letter === letter && move.to === position && isInside(window, move.at),
      );
      const note = own[0]?.seconds ?? 0;
      const worth = (index: number): number => {
        const moment = own[index]!;
        const lead = note - moment.seconds;
        return (
          (lead === 0 ? 20 : lead < COMFORTABLE_SECONDS ? 8 : Math.min(20, lead)) +
          (moment.onBeat ? 0 : 6) +
          Math.min(3, moment.notesPlucked)
        );
      };
      const ranked = own.map((_, index) => index).sort((a, b) => worth(a) - worth(b) || a - b);
      const found = [
        ...(planned === undefined ? [] : [placeAt(planned.bar, planned.at)]),
        ...ranked.map((index) => placeAt(own[index]!.bar, own[index]!.at)),
        ...(own.length === 0 ? [placeAt(window.bar, window.until)] : []),
      ];
      return found.filter(({ at }, i) => found.findIndex((other) => equals(other.at, at)) === i);
    },
    about: (at, bar, bars) =>
      onsets
        .filter((moment) => moment.onBeat && Math.abs(moment.bar - bar) <= bars && !equals(moment.at, at))
        .map((moment) => placeAt(moment.bar, moment.at))
        .sort((a, b) => distance(a.at, at) - distance(b.at, at)),
  };
};

const distance = (a: Rational, b: Rational): number => Math.abs(toNumber(subtract(a, b)));

/** Whether one place stands for several windows. */
export const isInAll = (windows: readonly MarkingWindow[], at: Rational): boolean =>
  windows.every((window) => isInside(window, at));
