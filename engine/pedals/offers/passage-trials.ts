import { delayNotes } from '../../score/delay-notes.ts';
import { notesById } from '../../score/notes-by-id.ts';
import { slowDown } from '../../score/slow-down.ts';
import { keyOfTrouble } from '../fixes/hand-troubles.ts';
import { noteOffers } from './describe-offer.ts';
import { fewerInPlaceOf } from './fewer-notes.ts';
import { allGrowth, asLeftOut, type FixSearch, forHarps, leftOutBy, unplayedIn } from './fix-search.ts';
import type { PlaceFixes } from './model.ts';
import type { Candidate } from './note-candidates.ts';
import type { PassageTrials } from './passage-fixes.ts';
import { isEased, isRemoved, stopsIn } from './trials.ts';

/** How fixes of places are tried for passages. @param all places of the part */
export const passageTrials = (search: FixSearch, all: readonly PlaceFixes[]): PassageTrials => {
  const { score, before, trials } = search;
  return {
    atAll: (places, changes) => fixesOfPassage(search, places, changes, all),
    mendedBy: (offer) => {
      if (offer.kind === 'delay') {
        const until = new Map(offer.delay.notes.map((id) => [id, offer.delay.until]));
        const after = trials.planAs(delayNotes(score, until));
        return (place) => isRemoved(keyOfTrouble(place), before, after);
      }
      const { passage, quartersPerMinute } = offer.tempo;
      const had = stopsIn(before);
      const has = stopsIn(trials.planAs(slowDown(score, [{ ...passage, quartersPerMinute }])));
      return (place) => isEased(place, had, has);
    },
    fewerFor: (changes) => {
      const near = changes.map(({ note }) => notesById(score.notes).get(note)!);
      const ids = new Set(near.map(({ id }) => id));
      return asLeftOut(search, fewerInPlaceOf(ids, near, search.fewer()))[0] ?? null;
    },
  };
};

/** The changes of notes taken at several places: offered where all of their troubles are gone by them. */
const fixesOfPassage = (
  { score, before, trials, options }: FixSearch,
  places: readonly PlaceFixes[],
  changes: Candidate,
  all: readonly PlaceFixes[],
): ReturnType<PassageTrials['atAll']> => {
  const after = trials.planWith(changes);
  const mends = (place: PlaceFixes): boolean => isRemoved(keyOfTrouble(place), before, after);
  if (!places.every(mends)) return { offers: [], mends };
  const growth = allGrowth(score, before, after);
  const alsoFixes = growth.alsoFixes - (places.length - 1);
  const unheard = new Set([...options.omitted, ...leftOutBy(all), ...unplayedIn(after)]);
  const offers = noteOffers(score, null, changes, { ...growth, alsoFixes }, unheard);
  return { offers: forHarps(places[0]!.code, offers), mends };
};
