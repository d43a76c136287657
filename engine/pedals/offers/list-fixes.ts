import { FINDINGS, mayHelp } from '../../findings/catalogue.ts';
import { stopPlaces } from '../../findings/count-places.ts';
import type { FindingPlace, PedalFinding } from '../../findings/model.ts';
import { group } from '../../group.ts';
import { areDeepEqual } from '../../memoize.ts';
import { compare } from '../../music/rational.ts';
import { buildClock } from '../../score/bars/clock.ts';
import { delayNotes } from '../../score/delay-notes.ts';
import type { Score } from '../../score/model/score.ts';
import { notesById } from '../../score/notes-by-id.ts';
import { slowDown } from '../../score/slow-down.ts';
import { isSameChange } from '../fixes/fix-trials.ts';
import { keyOfTrouble } from '../fixes/hand-troubles.ts';
import type { Plan, StringTuning } from '../model.ts';
import { DEFAULT_PLAN_OPTIONS, type PlanOptions } from '../options.ts';
import { planPedals } from '../plan.ts';
import { tellDamped } from './damped-strings.ts';
import { findDelays } from './delay.ts';
import { delayOffer, type Growth, noteOffers, tempoOffer } from './describe-offer.ts';
import { type FewerSearch, fewerInPlaceOf, fewestToFree } from './fewer-notes.ts';
import { compareOffers } from './fix-weights.ts';
import type { FixKind, FreeSpelling, OfferedFix, PartFixes, PlaceFixes } from './model.ts';
import { areSameChanges, barsOfMoves, type Candidate, candidatesFor, leftOut } from './note-candidates.ts';
import { withoutOutdone } from './outdone.ts';
import { type PassageTrials, passageFixes, type Run } from './passage-fixes.ts';
import { octavesRespelled, respellingsNear } from './respelling-candidates.ts';
import { findTempoLimit, followTempo } from './tempo.ts';
import {
  countStops,
  createTrials,
  growthOf,
  isEased,
  isRemoved,
  type OfferTrials,
  stopsIn,
} from './trials.ts';

/** A place that cannot be played, with its finding. */
export interface StopPlace {
  readonly finding: PedalFinding;
  readonly place: FindingPlace;
}

/** Places that are looked at, in the order of the page, where it is not said which. */
const MOST_PLACES = 40;

/** Sets of notes that are planned with for one place. */
const MOST_TRIALS = 24;

/**
 * Searches for every place that cannot be played the smallest fixes: notes respelled, an octave away or
 * left out, notes that wait, a slower tempo, notes for a second harp. Each is planned with, and offered only where the trouble is gone
 * and nothing else has become unplayable.
 *
 * Makes some thirty plans for a place, and as many again where no respelling of its own notes helps: then those of notes
 * nearby are tried, since nothing is heard otherwise by them.
 *
 * @param choose which of the places are looked at; the answer says how many were not
 * @param onPlace told, before each place and at the end, how many are done
 * @param plan of that score with those options, where it is known
 */
export const listFixes = (
  score: Score,
  options: PlanOptions = DEFAULT_PLAN_OPTIONS,
  choose: (all: readonly StopPlace[]) => readonly StopPlace[] = (all) => all.slice(0, MOST_PLACES),
  onPlace: (done: number, all: number) => void = () => {},
  plan: Plan = planPedals(score, options),
): PartFixes => {
  const trials = createTrials(score, options);
  // Findings of several places follow each other by kind, their places by bar.
  const places = stopPlaces(plan.findings).toSorted(
    ({ place: a }, { place: b }) => a.bar - b.bar || compare(a.beat, b.beat),
  );
  const quick = trials.planWith([]);
  const chosen = choose(places);
  const search: Search = { score, plan, before: quick, trials, options, fewer: searchFewer(score, trials) };
  const fixed: PlaceFixes[] = [];
  for (const { finding, place } of chosen) {
    onPlace(fixed.length, chosen.length);
    fixed.push(fixesAt(search, finding, place, leftOutBy(fixed)));
  }
  onPlace(chosen.length, chosen.length);
  const runs = [...group(chosen.keys(), (i) => chosen[i]!.finding)].map(([finding, at]) => ({
    places: at,
    planned: plannedForSeveral(finding, at, chosen),
  }));
  return {
    places: fixed,
    passages: passageFixes(score, fixed, runs, passageTrials(search, fixed)),
    untried: places.length - chosen.length,
    tempo: followTempo(score, quick, trials),
    freeSpelling: spelledFreely(score, quick, options),
  };
};

/** What the plan offers for several places of a finding at once, of those that are looked at. */
const plannedForSeveral = (
  { fixes, places }: PedalFinding,
  at: readonly number[],
  chosen: readonly StopPlace[],
): Run['planned'] =>
  fixes
    .filter((fix) => fix.places.length > 1)
    .flatMap((fix) => {
      const own = at.filter((i) => fix.places.some((each) => places[each] === chosen[i]!.place));
      return own.length === 0 ? [] : [{ at: own, changes: fix.changes }];
    });

const spelledFreely = (score: Score, before: Plan, options: PlanOptions): FreeSpelling | null => {
  if (options.spelling === 'free' || countStops(before) === 0) return null;
  const after = createTrials(score, { ...options, spelling: 'free' }).planWith([]);
  const stops = countStops(after);
  if (stops >= countStops(before)) return null;
  const had = new Set(before.respellings.map(({ note }) => note));
  return {
    stops,
    respelled: after.respellings.filter(({ note }) => !had.has(note)).length,
    moreMoves: after.moves.length - before.moves.length,
  };
};

interface Search {
  readonly score: Score;
  /** With the fixes of its findings. */
  readonly plan: Plan;
  /** What trials are held against. */
  readonly before: Plan;
  readonly trials: OfferTrials;
  readonly options: PlanOptions;
  /** With so many plans to try fewer notes for one place or passage. */
  readonly fewer: () => FewerSearch;
}

/** Plans that are made to find fewer notes to leave out, for one place or passage. */
const MOST_PLANS_FOR_FEWER = 30;

/** So few notes are searched for a place at which no smaller set that one pedal asks for helps. */
const MOST_FREED = 3;

const searchFewer = (score: Score, trials: OfferTrials) => (): FewerSearch => {
  const byId = notesById(score.notes);
  return {
    score,
    firstWithout: (out) => trials.planWith([...out].map((id) => leftOut(byId.get(id)!))),
    isOpen: () => true,
    budget: { left: MOST_PLANS_FOR_FEWER },
  };
};

const asLeftOut = ({ score }: Search, ids: ReadonlySet<string> | null): readonly Candidate[] =>
  ids === null ? [] : [[...ids].map((id) => leftOut(notesById(score.notes).get(id)!))];

/** Notes that a fix of some place leaves out. */
const leftOutBy = (places: readonly PlaceFixes[]): readonly string[] =>
  places
    .flatMap(({ offers }) => offers)
    .flatMap((offer) => ('changes' in offer ? offer.changes : []))
    .filter(({ kind }) => kind === 'omit')
    .map(({ note }) => note);

/** Notes that find their pedal elsewhere, or move it without time: the first of those that a place names. */
const unplayedIn = ({ findings }: Plan): readonly string[] =>
  stopPlaces(findings).flatMap(({ place }) => place.notes.slice(0, 1));

/** @param mayGo notes that the fixes of earlier places leave out: where all are taken, they do not sound for others */
const fixesAt = (
  search: Search,
  finding: PedalFinding,
  place: FindingPlace,
  mayGo: readonly string[],
): PlaceFixes => {
  const { score, plan, before, trials, options } = search;
  const { code } = finding;
  const trouble = keyOfTrouble({ code, notes: place.notes });
  const secondsAt = buildClock(score.tempo);
  const { found, octaves, without } = candidatesFor(score, plan, finding, place, secondsAt);
  const together = octavesRespelled(score, place, options);
  const tryOut = (changes: Candidate): readonly OfferedFix[] => {
    const after = trials.planWith(changes);
    if (!isRemoved(trouble, before, after)) return [];
    const unheard = new Set([...options.omitted, ...mayGo, ...unplayedIn(after)]);
    return forHarps(code, noteOffers(score, place, changes, allGrowth(score, before, after), unheard));
  };
  const own = finding.fixes.flatMap(({ places: [at, ...more], changes }) =>
    more.length === 0 && finding.places[at!] === place ? [changes] : [],
  );
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
  if (mayHelp('later-note', code)) {
    for (const { delay, after } of findDelays(score, place, trouble, before, trials)) {
      offers.push(delayOffer(score, place, delay, allGrowth(score, before, after)));
    }
  }
  const tempo = mayHelp('slower-tempo', code)
    ? findTempoLimit(score, { ...place, code }, barsOfMoves(score, plan, place, secondsAt), before, trials)
    : null;
  if (tempo !== null) offers.push(tempoOffer(score, tempo));
  const { bar, barNumber, barName, beat, notes, sentence } = place;
  return {
    code,
    bar,
    barNumber,
    barName,
    beat,
    notes,
    sentence,
    offers: bestOfEach(withoutMore(offers), own),
  };
};

const isRespelling = ({ kind }: OfferedFix): boolean => kind === 'respell';

/** How many notes an offer leaves out, and changes no others. */
const notesLeftOut = (offer: OfferedFix): number =>
  'changes' in offer && offer.changes.every(({ kind }) => kind === 'omit') ? offer.changes.length : 0;

/** @param all of the part */
const passageTrials = (search: Search, all: readonly PlaceFixes[]): PassageTrials => {
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
  { score, before, trials, options }: Search,
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

/** Without what another harp could not play either. */
const forHarps = (code: PedalFinding['code'], offers: readonly OfferedFix[]): readonly OfferedFix[] =>
  mayHelp('second-harp', code) ? offers : offers.filter(({ kind }) => kind !== 'second-harp');

const allGrowth = (score: Score, before: Plan, after: Plan): Growth => ({
  ...growthOf(before, after),
  tuned: newTunings(before, after),
  damped: tellDamped(score, before, after),
});

/** Strings without discs that a plan has tuned, and the one before it has not. */
const newTunings = (before: Plan, after: Plan): readonly StringTuning[] =>
  after.tunings.filter((tuning) => !before.tunings.some((known) => areDeepEqual(known, tuning)));

const distinct = (candidates: readonly Candidate[]): readonly Candidate[] =>
  candidates.filter((each, i) => candidates.findIndex((other) => areSameChanges(other, each)) === i);

/** Without those that change more notes than another does which helps as well; more are respelled where that spares moves. */
const withoutMore = (offers: readonly OfferedFix[]): readonly OfferedFix[] =>
  offers.filter(
    (offer) =>
      !('changes' in offer) ||
      !offers.some(
        (other) =>
          'changes' in other &&
          isPartOf(other.changes, offer.changes) &&
          !(isRespelling(offer) && offer.moreMoves < other.moreMoves),
      ),
  );

const isPartOf = (some: Candidate, all: Candidate): boolean =>
  some.length < all.length && some.every((change) => all.some((other) => isSameChange(change, other)));

/** Ways of one kind that are offered, none at more than so much above the best, as a share of its cost. */
const MOST_OF_A_KIND = 2;
const MOST_ABOVE_THE_BEST = 1;

/** @param own what the finding of the place offers itself: that stays, whatever is better, so that its price is told exactly */
const bestOfEach = (offers: readonly OfferedFix[], own: readonly Candidate[]): readonly OfferedFix[] => {
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
