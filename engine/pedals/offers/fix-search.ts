import { mayHelp } from '../../findings/catalogue.ts';
import { stopPlaces } from '../../findings/count-places.ts';
import type { PedalFinding } from '../../findings/model.ts';
import { areDeepEqual } from '../../memoize.ts';
import type { Rational } from '../../music/rational.ts';
import type { Score } from '../../score/model/score.ts';
import { notesById } from '../../score/notes-by-id.ts';
import type { Plan, StringTuning } from '../model.ts';
import type { PlanOptions } from '../options.ts';
import { tellDamped } from './damped-strings.ts';
import type { Growth } from './describe-offer.ts';
import type { FewerSearch } from './fewer-notes.ts';
import type { OfferedFix, PlaceFixes } from './model.ts';
import { type Candidate, leftOut } from './note-candidates.ts';
import { growthOf, type OfferTrials } from './trials.ts';

/** What fixes are searched with, for one part. */
export interface FixSearch {
  readonly score: Score;
  /** With the fixes of its findings. */
  readonly plan: Plan;
  /** What trials are held against. */
  readonly before: Plan;
  readonly trials: OfferTrials;
  readonly options: PlanOptions;
  /** Clock time of a score time in printed order. */
  readonly secondsAt: (at: Rational) => number;
  /** With so many plans to try fewer notes for one place or passage. */
  readonly fewer: () => FewerSearch;
}

/** Plans that are made to find fewer notes to leave out, for one place or passage. */
const MOST_PLANS_FOR_FEWER = 30;

export const searchFewer = (score: Score, trials: OfferTrials) => (): FewerSearch => {
  const byId = notesById(score.notes);
  return {
    score,
    firstWithout: (out) => trials.planWith([...out].map((id) => leftOut(byId.get(id)!))),
    isOpen: () => true,
    budget: { left: MOST_PLANS_FOR_FEWER },
  };
};

export const asLeftOut = ({ score }: FixSearch, ids: ReadonlySet<string> | null): readonly Candidate[] =>
  ids === null ? [] : [[...ids].map((id) => leftOut(notesById(score.notes).get(id)!))];

/** Notes that a fix of some place leaves out. */
export const leftOutBy = (places: readonly PlaceFixes[]): readonly string[] =>
  places
    .flatMap(({ offers }) => offers)
    .flatMap((offer) => ('changes' in offer ? offer.changes : []))
    .filter(({ kind }) => kind === 'omit')
    .map(({ note }) => note);

/** Notes that find their pedal elsewhere, or move it without time: the first of those that a place names. */
export const unplayedIn = ({ findings }: Plan): readonly string[] =>
  stopPlaces(findings).flatMap(({ place }) => place.notes.slice(0, 1));

/** Without what another harp could not play either. */
export const forHarps = (code: PedalFinding['code'], offers: readonly OfferedFix[]): readonly OfferedFix[] =>
  mayHelp('second-harp', code) ? offers : offers.filter(({ kind }) => kind !== 'second-harp');

/** What a plan with a fix has more, tunings and damped strings among it. */
export const allGrowth = (score: Score, before: Plan, after: Plan): Growth => ({
  ...growthOf(before, after),
  tuned: newTunings(before, after),
  damped: tellDamped(score, before, after),
});

/** Strings without discs that a plan has tuned, and the one before it has not. */
const newTunings = (before: Plan, after: Plan): readonly StringTuning[] =>
  after.tunings.filter((tuning) => !before.tunings.some((known) => areDeepEqual(known, tuning)));
