import type { Remedy } from '../../findings/catalogue/entry.ts';
import { FINDINGS } from '../../findings/catalogue.ts';
import { stopPlaces } from '../../findings/count-places.ts';
import type { FindingPlace, PedalFinding } from '../../findings/model.ts';
import { group } from '../../group.ts';
import { areDeepEqual } from '../../memoize.ts';
import { compare } from '../../music/rational.ts';
import { buildClock } from '../../score/bars/clock.ts';
import type { Score } from '../../score/model/score.ts';
import { isSameChange } from '../fixes/fix-trials.ts';
import { keyOfTrouble } from '../fixes/hand-troubles.ts';
import type { Plan, StringTuning } from '../model.ts';
import { DEFAULT_PLAN_OPTIONS, type PlanOptions } from '../options.ts';
import { planPedals } from '../plan.ts';
import { tellDamped } from './damped-strings.ts';
import { findDelays } from './delay.ts';
import { delayOffer, type Growth, noteOffers, tempoOffer } from './describe-offer.ts';
import { comesFirst, compareOffers } from './fix-weights.ts';
import type { FixKind, FreeSpelling, OfferedFix, PartFixes, PlaceFixes } from './model.ts';
import { barsOfMoves, type Candidate, candidatesFor } from './note-candidates.ts';
import { passageFixes, type TryAtAll } from './passage-fixes.ts';
import { octavesRespelled, respellingsNear } from './respelling-candidates.ts';
import { findTempoLimit, followTempo } from './tempo.ts';
import { countStops, createTrials, growthOf, isRemoved, type OfferTrials } from './trials.ts';

/** A place that cannot be played, with its finding. */
export interface StopPlace {
  readonly finding: PedalFinding;
  readonly place: FindingPlace;
}

/** Places that are looked at, in the order of the page, where it is not said which. */
const MOST_PLACES = 40;

/** Sets of notes that are planned with for one place. */
const MOST_TRIALS = 24;

/** What may help where pedals fail, beside changed notes. */
const mayHelp = (remedy: Remedy, code: PedalFinding['code']): boolean =>
  FINDINGS[code].remedies?.includes(remedy) ?? false;

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
  const search = { score, plan, before: quick, trials, options };
  const fixed: PlaceFixes[] = [];
  for (const { finding, place } of chosen) {
    onPlace(fixed.length, chosen.length);
    fixed.push(fixesAt(search, finding, place, leftOutBy(fixed)));
  }
  onPlace(chosen.length, chosen.length);
  const runs = [...group(chosen.keys(), (i) => chosen[i]!.finding).values()];
  return {
    places: fixed,
    passages: passageFixes(score, fixed, runs, (at, changes) => fixesOfPassage(search, at, changes, fixed)),
    untried: places.length - chosen.length,
    tempo: followTempo(score, quick, trials),
    freeSpelling: spelledFreely(score, quick, options),
  };
};

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
}

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
  const own = finding.fixes.flatMap((fix) => (finding.places[fix.place] === place ? [fix.changes] : []));
  const offers = distinct([...own, ...found, ...together, ...octaves, ...without])
    .slice(0, MOST_TRIALS)
    .flatMap(tryOut);
  if (FINDINGS[code].failsBy === 'feet' && !offers.some(({ kind }) => comesFirst(kind))) {
    for (const sets of respellingsNear(score, plan, place, options, secondsAt)) {
      if (!offers.some(({ kind }) => comesFirst(kind))) offers.push(...sets.flatMap(tryOut));
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

/** The changes of notes taken at several places: offered where all of their troubles are gone by them. */
const fixesOfPassage = (
  { score, before, trials, options }: Search,
  places: readonly PlaceFixes[],
  changes: Candidate,
  all: readonly PlaceFixes[],
): ReturnType<TryAtAll> => {
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

/** Without those that change more notes than another does which helps as well. */
const withoutMore = (offers: readonly OfferedFix[]): readonly OfferedFix[] =>
  offers.filter(
    (offer) =>
      !('changes' in offer) ||
      !offers.some((other) => 'changes' in other && isPartOf(other.changes, offer.changes)),
  );

const isPartOf = (some: Candidate, all: Candidate): boolean =>
  some.length < all.length && some.every((change) => all.some((other) => isSameChange(change, other)));

const areSameChanges = (a: Candidate, b: Candidate): boolean =>
  a.length === b.length && a.every((change) => b.some((other) => isSameChange(change, other)));

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
  return [...offers].sort(compareOffers).filter((offer) => {
    const { kind, cost } = offer;
    const { best, count } = taken.get(kind) ?? { best: cost, count: 0 };
    taken.set(kind, { best, count: count + 1 });
    const isGood = count < MOST_OF_A_KIND && cost <= best + MOST_ABOVE_THE_BEST * Math.abs(best);
    return isGood || isOwn(offer);
  });
};
