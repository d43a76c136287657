import { handFindings } from '../findings/hand-findings.ts';
import { areAlike, memoize } from '../memoize.ts';
import type { Score } from '../score/model.ts';
import { setInTime } from '../time/timeline.ts';
import { type Solution, solveFeet } from './course/solve.ts';
import { findMends, isSamePassage } from './findings/mending.ts';
import type { Plan } from './model.ts';
import type { PlanOptions } from './options.ts';
import { type PlanSteps, planPrepared } from './plan.ts';
import { memoizeNeeds, prepareScore } from './prepared.ts';
import { spellFreely } from './spelling/free-spelling.ts';

/**
 * Plans one part again and again as the user changes pins and choices.
 *
 * Always gives what `planPedals` gives for the same score and options; what a call has in common with the ones before
 * is not worked out again. A change of one pin plans one foot anew, and searches the mends of places near the change.
 * Holds on to the latest answers, so that it should be dropped with the score.
 */
export const createReplanner = (score: Score): ((options: PlanOptions) => Plan) => {
  const inTime = setInTime(score);
  const steps = rememberSteps();
  return (options) => planPrepared(prepareScore(score, options, inTime), steps);
};

const rememberSteps = (): PlanSteps => {
  let solution: Solution | undefined;
  return {
    askNeeds: memoizeNeeds(),
    spellFreely: memoize(
      spellFreely,
      ([a, writtenA], [b, writtenB]) =>
        writtenA.listed === writtenB.listed && areAlike(a.options.weights, b.options.weights),
    ),
    solveFeet: (needs, stage) => {
      solution = solveFeet(needs, stage, solution);
      return solution;
    },
    findMends: memoize(
      findMends,
      ([a, aboutA, moment], [b, aboutB]) =>
        a.needs === b.needs && areAlike(aboutA, aboutB) && isSamePassage(a, b, moment),
      (_problem, _about, moment) => moment,
      MENDS_AT_ONE_MOMENT,
    ),
    handFindings: memoize(handFindings, areAlike),
  };
};

/** Both feet may have trouble at one moment, each with and without a pin nearby. */
const MENDS_AT_ONE_MOMENT = 4;
