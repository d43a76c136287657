import { handFindings } from '../findings/hands/hand-findings.ts';
import { areDeepEqual, memoize } from '../memoize.ts';
import type { Score } from '../score/model/score.ts';
import { buildTimeline } from '../time/part-timeline.ts';
import { type PedalSolution, solveFeet } from './course/solve.ts';
import { agreeAmong, agreeBySteps, tryAlone } from './fixes/agreeing-fixes.ts';
import { findNoteFixes } from './fixes/note-fixes.ts';
import { isSameWithin } from './fixes/reach.ts';
import { isSamePlace } from './fixes/same-place.ts';
import type { Plan } from './model.ts';
import type { PlanOptions } from './options.ts';
import { memoizeNeeds, prepareScore } from './pedal-problem.ts';
import { type PlanSteps, planPrepared } from './plan.ts';
import { spellFreely } from './spelling/free-spelling.ts';

/**
 * Plans one part again and again as the user changes pins and choices.
 *
 * Always gives what `planPedals` gives for the same score and options; what a call has in common with the ones before
 * is not worked out again. A change of one pin plans one foot anew, and searches the fixes of places near the change.
 * Holds on to the latest answers, so that it should be dropped with the score.
 */
export const createReplanner = (score: Score): ((options: PlanOptions) => Plan) => {
  const timeline = buildTimeline(score);
  const steps = memoizeSteps();
  return (options) => planPrepared(prepareScore(score, options, timeline), steps);
};

const memoizeSteps = (): PlanSteps => {
  let solution: PedalSolution | undefined;
  return {
    needsOfSpelling: memoizeNeeds(),
    spellFreely: memoize(
      spellFreely,
      ([a, writtenA], [b, writtenB]) =>
        writtenA.listed === writtenB.listed && areDeepEqual(a.options.weights, b.options.weights),
    ),
    solveFeet: (needs, context) => {
      solution = solveFeet(needs, context, solution);
      return solution;
    },
    findNoteFixes: memoize(
      findNoteFixes,
      ([a, placeA], [b, placeB]) =>
        a.problem.needs === b.problem.needs &&
        areDeepEqual(placeA, placeB) &&
        isSamePlace(a, b, placeA.moment),
      (_part, { moment }) => moment,
      FIXES_AT_ONE_MOMENT,
    ),
    agreeOnFixes: agreeBySteps({
      tryAlone: memoize(
        tryAlone,
        ([a, partA], [b, partB], { reach }) =>
          a.fixes === b.fixes && areDeepEqual(a.finding, b.finding) && isSameWithin(reach, partA, partB),
        ({ finding: { bar } }) => bar,
        TRIED_IN_ONE_BAR,
      ),
      agreeAmong: memoize(
        agreeAmong,
        ([a], [b]) => a.length === b.length && a.every((each, i) => each === b[i]),
        ([first]) => first!.open.finding.bar,
        AGREED_FROM_ONE_BAR,
      ),
    }),
    handFindings: memoize(handFindings, areDeepEqual),
  };
};

/** Both feet may have trouble at one moment, each with and without a pin nearby. */
const FIXES_AT_ONE_MOMENT = 4;
const TRIED_IN_ONE_BAR = 16;
const AGREED_FROM_ONE_BAR = 4;
