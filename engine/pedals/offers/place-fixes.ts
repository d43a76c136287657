import { FINDINGS, mayHelp } from '../../findings/catalogue.ts';
import type { FindingPlace, PedalFinding } from '../../findings/model.ts';
import { keyOfTrouble } from '../fixes/hand-troubles.ts';
import { bestOfEach, distinct, withoutMore } from './best-offers.ts';
import { findDelays } from './delay.ts';
import { delayOffer, noteOffers, tempoOffer } from './describe-offer.ts';
import { fewestToFree } from './fewer-notes.ts';
import { allGrowth, asLeftOut, type FixSearch, forHarps, unplayedIn } from './fix-search.ts';
import type { OfferedFix, PlaceFixes } from './model.ts';
import { barsOfMoves, type Candidate, candidatesFor } from './note-candidates.ts';
import { octavesRespelled, respellingsNear } from './respelling-candidates.ts';
import { findTempoLimit } from './tempo.ts';
import { isRemoved } from './trials.ts';

/** A place that cannot be played, with its finding. */
export interface StopPlace {
  readonly finding: PedalFinding;
  readonly place: FindingPlace;
}

/** Sets of notes that are planned with for one place. */
const MOST_TRIALS = 24;

/** So few notes are searched for a place at which no smaller set that one pedal asks for helps. */
const MOST_FREED = 3;

/**
 * The fixes of one place.
 *
 * @param mayGo notes that the fixes of earlier places leave out: where all are taken, they do not sound for others
 */
export const fixesAt = (search: FixSearch, stop: StopPlace, mayGo: readonly string[]): PlaceFixes => {
  const { finding, place } = stop;
  const { bar, barNumber, barName, beat, notes, sentence } = place;
  const own = finding.fixes.flatMap(({ places: [at, ...more], changes }) =>
    more.length === 0 && finding.places[at!] === place ? [changes] : [],
  );
  const offers = [...noteFixesAt(search, stop, own, mayGo), ...slowerFixesAt(search, stop)];
  return {
    code: finding.code,
    bar,
    barNumber,
    barName,
    beat,
    notes,
    sentence,
    offers: bestOfEach(withoutMore(offers), own),
  };
};

/** Notes respelled, moved, left out, or given to another harp. @param own what the finding offers for the place alone */
const noteFixesAt = (
  search: FixSearch,
  { finding, place }: StopPlace,
  own: readonly Candidate[],
  mayGo: readonly string[],
): readonly OfferedFix[] => {
  const { score, plan, before, trials, options, secondsAt } = search;
  const { code } = finding;
  const trouble = keyOfTrouble({ code, notes: place.notes });
  const tryOut = (changes: Candidate): readonly OfferedFix[] => {
    const after = trials.planWith(changes);
    if (!isRemoved(trouble, before, after)) return [];
    const unheard = new Set([...options.omitted, ...mayGo, ...unplayedIn(after)]);
    return forHarps(code, noteOffers(score, place, changes, allGrowth(score, before, after), unheard));
  };
  const { found, octaves, without } = candidatesFor(score, plan, finding, place, secondsAt);
  const together = octavesRespelled(score, place, options);
  const offers = distinct([...own, ...found, ...together, ...octaves, ...without])
    .slice(0, MOST_TRIALS)
    .flatMap(tryOut);
  if (mayHelp('second-harp', code)) {
    const fewest = Math.min(MOST_FREED + 1, ...offers.map(notesLeftOut).filter((count) => count > 0));
    const fewer = fewest === 1 ? null : fewestToFree(trouble, fewest - 1, search.fewer());
    offers.push(...asLeftOut(search, fewer).flatMap(tryOut));
  }
  if (FINDINGS[code].failsBy === 'feet' && !offers.some(isRespelling)) {
    for (const sets of respellingsNear(score, plan, place, options, secondsAt)) {
      if (!offers.some(isRespelling)) offers.push(...sets.flatMap(tryOut));
    }
  }
  return offers;
};

/** Notes that wait, or a slower tempo. */
const slowerFixesAt = (
  { score, plan, before, trials, secondsAt }: FixSearch,
  { finding: { code }, place }: StopPlace,
): readonly OfferedFix[] => {
  const trouble = keyOfTrouble({ code, notes: place.notes });
  const delays = mayHelp('later-note', code) ? findDelays(score, place, trouble, before, trials) : [];
  const bars = barsOfMoves(score, plan, place, secondsAt);
  const tempo = mayHelp('slower-tempo', code)
    ? findTempoLimit(score, { ...place, code }, bars, before, trials)
    : null;
  return [
    ...delays.map(({ delay, after }) => delayOffer(score, place, delay, allGrowth(score, before, after))),
    ...(tempo === null ? [] : [tempoOffer(score, tempo)]),
  ];
};

const isRespelling = ({ kind }: OfferedFix): boolean => kind === 'respell';

/** How many notes an offer leaves out, and changes no others. */
const notesLeftOut = (offer: OfferedFix): number =>
  'changes' in offer && offer.changes.every(({ kind }) => kind === 'omit') ? offer.changes.length : 0;
