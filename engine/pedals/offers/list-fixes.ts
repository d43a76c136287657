import { stopPlaces } from '../../findings/count-places.ts';
import type { PedalFinding } from '../../findings/model.ts';
import { group } from '../../group.ts';
import { compare } from '../../music/rational.ts';
import { buildClock } from '../../score/bars/clock.ts';
import type { Score } from '../../score/model/score.ts';
import type { Plan } from '../model.ts';
import { DEFAULT_PLAN_OPTIONS, type PlanOptions } from '../options.ts';
import { planPedals } from '../plan.ts';
import { type FixSearch, leftOutBy, searchFewer } from './fix-search.ts';
import type { FreeSpelling, PartFixes, PlaceFixes } from './model.ts';
import { passageFixes, type Run } from './passage-fixes.ts';
import { passageTrials } from './passage-trials.ts';
import { fixesAt, type StopPlace } from './place-fixes.ts';
import { followTempo } from './tempo.ts';
import { countStops, createTrials } from './trials.ts';

/** Places that are looked at, in the order of the page, where it is not said which. */
const MOST_PLACES = 40;

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
  const search: FixSearch = {
    score,
    plan,
    before: quick,
    trials,
    options,
    secondsAt: buildClock(score.tempo),
    fewer: searchFewer(score, trials),
  };
  const fixed: PlaceFixes[] = [];
  for (const stop of chosen) {
    onPlace(fixed.length, chosen.length);
    fixed.push(fixesAt(search, stop, leftOutBy(fixed)));
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
