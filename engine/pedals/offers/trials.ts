import { countPlaces, stopPlaces } from '../../findings/count-places.ts';
import { handFindings } from '../../findings/hands/hand-findings.ts';
import type { FindingPlace, PedalFinding } from '../../findings/model.ts';
import { group } from '../../group.ts';
import { areDeepEqual, memoize } from '../../memoize.ts';
import { rationalKey } from '../../music/rational.ts';
import type { Score } from '../../score/model/score.ts';
import type { NoteChange } from '../../sounding/changed-needs.ts';
import { keepAlikeLists, type NeedsByLetter } from '../../sounding/placed-needs.ts';
import type { Moment } from '../../time/moments.ts';
import { buildTimeline } from '../../time/part-timeline.ts';
import { type PedalSolution, solveFeet } from '../course/solve.ts';
import { HURRY_OF_FEET } from '../findings/hurried-feet.ts';
import { keyOfTrouble } from '../fixes/hand-troubles.ts';
import { NO_FIXES } from '../fixes/note-fixes.ts';
import type { Plan } from '../model.ts';
import type { PlanOptions } from '../options.ts';
import { needsOfSpelling, prepareScore } from '../pedal-problem.ts';
import { type PlanSteps, planPrepared } from '../plan.ts';
import { spellFreely } from '../spelling/free-spelling.ts';
import type { OfferedFix, WarningLeft } from './model.ts';

/** Plans one part with notes changed, or at another tempo; what fixes its findings would have is not searched. */
export interface OfferTrials {
  readonly planWith: (changes: readonly NoteChange[]) => Plan;
  readonly planAs: (score: Score) => Plan;
  /** Of the part as it is written, in order. */
  readonly moments: readonly Moment[];
}

export const createTrials = (score: Score, options: PlanOptions): OfferTrials => {
  const timeline = buildTimeline(score);
  const steps = quickSteps();
  const kept: PlanOptions = {
    ...options,
    spelling: options.spelling === 'suggest' ? 'keep' : options.spelling,
  };
  return {
    planWith: (changes) => planPrepared(prepareScore(score, withChanges(kept, changes), timeline), steps),
    moments: timeline.moments.all,
    planAs: (other) => planPrepared(prepareScore(other, kept), quickSteps()),
  };
};

/** Each plan goes by what it has in common with the first. */
const quickSteps = (): PlanSteps => {
  let [needs, solution]: [NeedsByLetter?, PedalSolution?] = [];
  return {
    needsOfSpelling: (prepared, strings) => {
      const asked = needsOfSpelling(prepared, strings);
      needs ??= asked.needs;
      return { ...asked, needs: keepAlikeLists(needs, asked.needs) };
    },
    spellFreely,
    solveFeet: (asked, context) => {
      const solved = solveFeet(asked, context, solution);
      solution ??= solved;
      return solved;
    },
    findNoteFixes: () => NO_FIXES,
    agreeOnFixes: (findings) => findings.map(({ finding }) => finding),
    handFindings: memoize(handFindings, areDeepEqual),
  };
};

/** The options once notes are changed; with what was decided before. */
export const withChanges = (options: PlanOptions, changes: readonly NoteChange[]): PlanOptions => ({
  ...options,
  respelled: new Map([
    ...options.respelled,
    ...changes.flatMap((each) => (each.kind === 'respell' ? [[each.note, each.to] as const] : [])),
  ]),
  omitted: new Set([
    ...options.omitted,
    ...changes.flatMap((each) => (each.kind === 'omit' ? [each.note] : [])),
  ]),
});

/** A place with a warning. */
type WarningAt = Pick<FindingPlace, 'notes' | 'bar'> & Pick<PedalFinding, 'code'>;

const warningsIn = ({ findings }: Plan): readonly WarningAt[] =>
  findings
    .filter(({ severity }) => severity === 'warn')
    .flatMap(({ code, places }) => places.map(({ bar, notes }) => ({ code, bar, notes })));

export const countStops = ({ findings }: Plan): number => countPlaces(findings, 'stop');

const stopsOf = (plan: Plan): ReadonlySet<string> => new Set(stopsIn(plan).map(keyOfTrouble));

/** Places with a warning. */
export const countWarnings = ({ findings }: Plan): number => countPlaces(findings, 'warn');

/** The warnings of a plan, kind by kind. @param isAsked which bars are looked at: indices */
export const warningsLeft = (
  { findings }: Plan,
  isAsked: (bar: number) => boolean = () => true,
): readonly WarningLeft[] =>
  [
    ...group(
      findings.filter(({ severity }) => severity === 'warn'),
      ({ code }) => code,
    ),
  ].flatMap(([code, alike]) => {
    const bars = alike.flatMap(({ places }) => places.map(({ bar }) => bar)).filter(isAsked);
    return bars.length === 0 ? [] : [{ code, bars: [...new Set(bars)].sort((a, b) => a - b) }];
  });

/**
 * The warnings that a plan has and the one before it has not, with their bars. A passage in which feet hurry is one warning,
 * whichever of its moves are made: of it the bars are told that were not hurried before.
 */
const warningsThen = (before: Plan, after: Plan): readonly WarningLeft[] => {
  const had = new Set(warningsIn(before).flatMap(keysOfWarning));
  const added = group(
    warningsIn(after).filter((each) => keysOfWarning(each).some((key) => !had.has(key))),
    ({ code }) => code,
  );
  return [...added].map(([code, each]) => ({
    code,
    bars: [...new Set(each.map(({ bar }) => bar))].sort((a, b) => a - b),
  }));
};

/** What tells a warning from others: it is known where all of these are. */
const keysOfWarning = ({ code, notes, bar }: WarningAt): readonly string[] => {
  if (code === HURRY_OF_FEET.code) return [`${code} ${bar}`];
  // What rings on is the same trouble, whichever note needs the change: that is named last.
  if (code === 'ringing-string-moved') return notes.slice(0, -1).map((id) => `${code} ${id}`);
  return [keyOfTrouble({ code, notes })];
};

/** What a plan has more than the one before it, and how many places beside the one that it is made for it makes playable. */
export const growthOf = (
  before: Plan,
  after: Plan,
): Pick<OfferedFix, 'moreMoves' | 'moreWarnings' | 'warningsThen' | 'alsoFixes'> => ({
  moreMoves: after.moves.length - before.moves.length,
  moreWarnings: countWarnings(after) - countWarnings(before),
  warningsThen: warningsThen(before, after),
  alsoFixes: countStops(before) - countStops(after) - 1,
});

/** A place that cannot be played. */
export type StopAt = Pick<FindingPlace, 'notes' | 'bar' | 'beat'> & Pick<PedalFinding, 'code'>;

/** The places of a plan that cannot be played. */
export const stopsIn = ({ findings }: Plan): readonly StopAt[] =>
  stopPlaces(findings).map(({ finding: { code }, place: { notes, bar, beat } }) => ({
    code,
    notes,
    bar,
    beat,
  }));

/**
 * Whether a place has become playable, and no other unplayable. Where two pedals have no time together, which of them is
 * told as late goes by the tempo: another note at a place that was unplayable before is the same trouble there.
 */
export const isEased = (place: StopAt, had: readonly StopAt[], has: readonly StopAt[]): boolean => {
  const known = new Set(had.map(keyOfTrouble));
  const own = atPlace(place);
  const places = group(had, atPlace);
  return (
    has.every((each) => keyOfTrouble(each) !== keyOfTrouble(place)) &&
    !has.some((each) => atPlace(each) === own && !known.has(keyOfTrouble(each))) &&
    [...group(has, atPlace)].every(([at, { length }]) => length <= (places.get(at)?.length ?? 0))
  );
};

const atPlace = ({ bar, beat }: StopAt): string => `${bar};${rationalKey(beat)}`;

/** Whether a trouble is gone, and no place has become unplayable. */
export const isRemoved = (trouble: string, before: Plan, after: Plan): boolean => {
  const [had, has] = [stopsOf(before), stopsOf(after)];
  return !has.has(trouble) && [...has].every((each) => had.has(each));
};
