import type { PedalFinding } from '../../findings/catalogue.ts';
import { handFindings } from '../../findings/hands/hand-findings.ts';
import { group } from '../../group.ts';
import { areDeepEqual, memoize } from '../../memoize.ts';
import type { Score } from '../../score/model/score.ts';
import type { NoteChange } from '../../sounding/changed-needs.ts';
import { keepAlikeLists, type NeedsByLetter } from '../../sounding/placed-needs.ts';
import type { Moment } from '../../time/moments.ts';
import { buildTimeline } from '../../time/part-timeline.ts';
import { type PedalSolution, solveFeet } from '../course/solve.ts';
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

const placesOf = ({ findings }: Plan, severity: PedalFinding['severity']) =>
  findings
    .filter((finding) => finding.severity === severity)
    .flatMap(({ code, places }) => places.map(({ notes }) => ({ code, notes })));

export const countStops = (plan: Plan): number => placesOf(plan, 'stop').length;

const stopsOf = (plan: Plan): ReadonlySet<string> => new Set(placesOf(plan, 'stop').map(keyOfTrouble));

/** Places with a warning. */
export const countWarnings = (plan: Plan): number => placesOf(plan, 'warn').length;

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

const warningsThen = (before: Plan, after: Plan): readonly WarningLeft[] => {
  const had = new Map(warningsLeft(before).map(({ code, bars }) => [code, bars]));
  return warningsLeft(after).flatMap(({ code, bars }) => {
    const fresh = bars.filter((bar) => !had.get(code)?.includes(bar));
    return fresh.length === 0 ? [] : [{ code, bars: fresh }];
  });
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

/** Whether a trouble is gone, and no place has become unplayable. */
export const isRemoved = (trouble: string, before: Plan, after: Plan): boolean => {
  const [had, has] = [stopsOf(before), stopsOf(after)];
  return !has.has(trouble) && [...has].every((each) => had.has(each));
};
