import type { Hand } from '../model.ts';
import type { LeverProblem } from '../problem.ts';
import { type LeverStage, measureLine } from '../stage.ts';
import { findCloseMoments, findNearMoments } from '../strings/hands.ts';
import { followLever } from '../strings/stands.ts';
import type { LeverNeed } from '../strings/strings.ts';
import { findLeverCourse } from './course.ts';
import { leastPrice } from './jobs.ts';
import { type LeverPrices, priceLevers } from './prices.ts';
import type { LeverTask } from './task.ts';

/** A change with how it is made. */
export interface MadeChange {
  /** Index of the string among those that are played. */
  readonly string: number;
  readonly moment: number;
  readonly to: 0 | 1;
  readonly hand: Hand;
  /** `lent`: the other hand has to help; `no-free-hand`, `too-soon`: there is no time for it. */
  readonly manner: 'alone' | 'lent' | 'no-free-hand' | 'too-soon';
  readonly restores: boolean;
}

/** What is done to all levers. */
export interface LeverSolution {
  /** By string, by moment: where the lever stands. */
  readonly stands: readonly Uint8Array[];
  readonly changes: readonly MadeChange[];
  /** Needs whose string stands at its other pitch, since others at the same moment outnumber them. */
  readonly unserved: readonly LeverNeed[];
  readonly cost: number;
  readonly proved: boolean;
  readonly prices: LeverPrices;
}

/** Terms of a price that say that the change cannot be made there. */
const NO_TIME: ReadonlySet<string> = new Set(['noFreeHand', 'noLead']);

const lacksTime = ({ termsAt }: LeverPrices, string: number, moment: number): boolean =>
  termsAt(string, moment).some(({ name }) => NO_TIME.has(name));

/** The changes for which no hand has time. */
export const countUntimely = ({ changes }: Pick<LeverSolution, 'changes'>): number =>
  changes.filter(({ manner }) => manner === 'no-free-hand' || manner === 'too-soon').length;

/** No solution has fewer changes without time than this: each lever's matters looked at alone. */
export const leastUntimely = (stage: LeverStage, problem: LeverProblem): number => {
  const prices = priceLevers(stage, problem);
  const aboveAnySum = stage.graph.moments + 1;
  const price = (string: number, moment: number): number =>
    lacksTime(prices, string, moment) ? aboveAnySum + 1 : 1;
  return problem.jobs.reduce((sum, job) => {
    const least = leastPrice(job, (moment) => price(job.string, moment));
    return sum + Math.floor(least / aboveAnySum);
  }, 0);
};

export const solveLevers = (stage: LeverStage, problem: LeverProblem): LeverSolution => {
  const prices = priceLevers(stage, problem);
  const task = taskFor(stage, prices);
  const course = findLeverCourse(problem.jobs, task);
  const stands = problem.strings.map((string, i) => {
    const printed = new Set(course.moves.filter((move) => move.string === i).map(({ moment }) => moment));
    return followLever(string, printed, stage.graph);
  });
  const changes = course.moves.map(({ string, moment, hurried }): MadeChange => {
    const to = stands[string]![moment] === 1 ? 1 : 0;
    const hand = prices.handAt(moment);
    const hasNoTime = lacksTime(prices, string, moment);
    const manner = hurried ? 'too-soon' : hasNoTime ? 'no-free-hand' : hand === 'right' ? 'lent' : 'alone';
    return { string, moment, to, hand, manner, restores: arrivesThere(stage, stands[string]!, moment) };
  });
  return {
    stands,
    changes: lendHands(changes, stage, task, prices),
    unserved: problem.strings.flatMap(({ needs }, i) => [
      ...new Set(
        needs.filter(({ need, moment }) => stands[i]![moment] !== need.position).map(({ need }) => need),
      ),
    ]),
    cost: course.cost,
    proved: course.proved,
    prices,
  };
};

const taskFor = ({ graph, options }: LeverStage, { priceAt }: LeverPrices): LeverTask => ({
  priceAt,
  near: findNearMoments(graph, options.moveSeconds),
  close: findCloseMoments(graph, options.moveSeconds),
  noTime: options.weights.noTime,
  lineSeconds: measureLine(graph),
  restSeconds: options.moveSeconds,
});

const arrivesThere = ({ graph }: LeverStage, stands: Uint8Array, moment: number): boolean => {
  const step = graph.into[moment]!.find((edge) => edge.from === moment - 1);
  return step === undefined ? moment === graph.start : stands[step.from] === stands[moment];
};

/**
 * Gives changes that come too soon after another to a hand that is free and sets no other lever then: a last resort.
 * The moments stay as planned; no hand helps where the string is plucked at once.
 */
const lendHands = (
  changes: readonly MadeChange[],
  stage: LeverStage,
  task: LeverTask,
  prices: LeverPrices,
): MadeChange[] => {
  if (!stage.options.rightHand) return [...changes];
  const made = [...changes];
  made.forEach((change, i) => {
    if (change.manner !== 'too-soon' || lacksTime(prices, change.string, change.moment)) return;
    const close = task.close(change.moment);
    const hand = (['left', 'right'] as const).find(
      (each) =>
        stage.free[each][change.moment] === 1 &&
        made.every((other, j) => j === i || other.hand !== each || !close.has(other.moment)),
    );
    if (hand !== undefined) made[i] = { ...change, hand, manner: 'lent' };
  });
  return made;
};
