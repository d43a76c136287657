import type { Letter } from '../../music/pitch.ts';
import { equals, type Rational } from '../../music/rational.ts';
import type { Plan } from '../../pedals/model.ts';
import type { Score } from '../../score/model/score.ts';
import type { Moments } from '../../time/moments.ts';
import { isInside, type MarkingWindow } from '../letter/letter-track.ts';
import type { FixPlace } from '../model.ts';
import { createPlaceFinder, type OnsetMoment, type PlaceFinder, priceOfLead } from './place-finder.ts';

/** Finds places for markings. */
export interface Places extends Omit<PlaceFinder, 'lastIn'> {
  /** Where a change may be printed, the best first; at least one. */
  readonly within: (letter: Letter, position: number, window: MarkingWindow) => readonly FixPlace[];
}

/** @param plan for the notes alone: where it has the change, a player would want it */
export const findPlaces = (score: Score, moments: Moments, plan: () => Plan): Places => {
  const { lastIn, ...finder } = createPlaceFinder(score, moments);
  return {
    ...finder,
    within: (letter, position, window) => {
      const own = lastIn(window);
      const planned = plan().moves.find(
        (move) => move.letter === letter && move.to === position && isInside(window, move.at),
      );
      const note = own[0]?.seconds ?? 0;
      const priceOf = ({ seconds, onBeat, notesPlucked }: OnsetMoment): number =>
        priceOfLead(note - seconds, onBeat) + Math.min(3, notesPlucked);
      const ranked = own
        .map((moment) => ({ moment, price: priceOf(moment) }))
        .sort((a, b) => a.price - b.price)
        .map(({ moment: { bar, at } }) => finder.at(bar, at));
      const found = [
        ...(planned === undefined ? [] : [finder.at(planned.bar, planned.at)]),
        ...ranked,
        ...(own.length === 0 ? [finder.at(window.bar, window.until)] : []),
      ];
      return found.filter(({ at }, i) => found.findIndex((other) => equals(other.at, at)) === i);
    },
  };
};

/** Whether one place stands for several windows. */
export const isInAll = (windows: readonly MarkingWindow[], at: Rational): boolean =>
  windows.every((window) => isInside(window, at));
