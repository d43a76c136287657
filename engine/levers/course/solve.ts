import { SIDES, type Side } from '../../harp/side.ts';
import { type LeverContext, printedSeconds } from '../context.ts';
import type { LeverProblem } from '../problem.ts';
import { findMomentsTooCloseTo, findMomentsTooSoonAfter } from '../strings/free-hands.ts';
import { followLever } from '../strings/lever-positions.ts';
import type { LeverNeed } from '../strings/strings.ts';
import { buildLeverCosts, type LeverCosts } from './lever-costs.ts';
import type { LeverTask } from './lever-task.ts';
import { findLeverSchedule } from './schedule.ts';
import { leastPrice } from './subproblems.ts';

/** A change with how it is made. */
export interface SolvedChange {
  /** Index of the string among those that are played. */
  readonly string: number;
  readonly moment: number;
  readonly to: 0 | 1;
  readonly hand: Side;
  /** `lent`: the other hand has to help; `no-free-hand`, `too-soon`: there is no time for it. */
  readonly manner: 'alone' | 'lent' | 'no-free-hand' | 'too-soon';
  readonly restores: boolean;
}

/** What is done to all levers. */
export interface LeverSolution {
  /** By string, by moment: where the lever stands. */
  readonly leverPositions: readonly Uint8Array[];
  readonly changes: readonly SolvedChange[];
  /** Needs whose string stands at its other pitch, since others at the same moment outnumber them. */
  readonly unmet: readonly LeverNeed[];
  readonly cost: number;
  readonly provenOptimal: boolean;
  readonly prices: LeverCosts;
}

/** Terms of a price that say that the change cannot be made there. */
const NO_TIME: ReadonlySet<string> = new Set(['noFreeHand', 'noLead']);

const lacksTime = ({ termsAt }: LeverCosts, string: number, moment: number): boolean =>
  termsAt(string, moment).some(({ name }) => NO_TIME.has(name));

/** The changes for which no hand has time. */
export const countChangesWithoutTime = ({ changes }: Pick<LeverSolution, 'changes'>): number =>
  changes.filter(({ manner }) => manner === 'no-free-hand' || manner === 'too-soon').length;

/** No solution has fewer changes without time than this: each lever's matters looked at alone. */
export const boundChangesWithoutTime = (context: LeverContext, problem: LeverProblem): number => {
  const prices = buildLeverCosts(context, problem);
  const aboveAnySum = context.graph.moments + 1;
  const price = (string: number, moment: number): number =>
    lacksTime(prices, string, moment) ? aboveAnySum + 1 : 1;
  return problem.subproblems.reduce((sum, subproblem) => {
    const least = leastPrice(subproblem, (moment) => price(subproblem.string, moment));
    return sum + Math.floor(least / aboveAnySum);
  }, 0);
};

export const solveLevers = (context: LeverContext, problem: LeverProblem): LeverSolution => {
  const prices = buildLeverCosts(context, problem);
  const task = buildLeverTask(context, prices);
  const course = findLeverSchedule(problem.subproblems, task);
  const leverPositions = problem.strings.map((string, i) => {
    const printed = new Set(course.moves.filter((move) => move.string === i).map(({ moment }) => moment));
    return followLever(string, printed, context.graph);
  });
  const changes = course.moves.map(({ string, moment, tooSoon }): SolvedChange => {
    const to = leverPositions[string]![moment] === 1 ? 1 : 0;
    const hand = prices.handAt(moment);
    const hasNoTime = lacksTime(prices, string, moment);
    const manner = tooSoon ? 'too-soon' : hasNoTime ? 'no-free-hand' : hand === 'right' ? 'lent' : 'alone';
    return {
      string,
      moment,
      to,
      hand,
      manner,
      restores: arrivesThere(context, leverPositions[string]!, moment),
    };
  });
  return {
    leverPositions,
    changes: useOtherHand(changes, context, task, prices),
    unmet: problem.strings.flatMap(({ needs }, i) => [
      ...new Set(
        needs
          .filter(({ need, moment }) => leverPositions[i]![moment] !== need.position)
          .map(({ need }) => need),
      ),
    ]),
    cost: course.cost,
    provenOptimal: course.provenOptimal,
    prices,
  };
};

const buildLeverTask = ({ graph, options }: LeverContext, { priceAt }: LeverCosts): LeverTask => ({
  priceAt,
  tooSoonAfter: findMomentsTooSoonAfter(graph, options.leverSeconds),
  tooCloseTo: findMomentsTooCloseTo(graph, options.leverSeconds),
  noTime: options.weights.noTime,
  printedSeconds: printedSeconds(graph),
  leverSeconds: options.leverSeconds,
});

const arrivesThere = ({ graph }: LeverContext, leverPositions: Uint8Array, moment: number): boolean => {
  const step = graph.into[moment]!.find((edge) => edge.from === moment - 1);
  return step === undefined ? moment === graph.start : leverPositions[step.from] === leverPositions[moment];
};

/**
 * Gives changes that come too soon after another to a hand that is free and sets no other lever then: a last resort.
 * The moments stay as planned; no hand helps where the string is plucked at once.
 */
const useOtherHand = (
  changes: readonly SolvedChange[],
  context: LeverContext,
  task: LeverTask,
  prices: LeverCosts,
): SolvedChange[] => {
  if (!context.options.rightHand) return [...changes];
  const made = [...changes];
  made.forEach((change, i) => {
    if (change.manner !== 'too-soon' || lacksTime(prices, change.string, change.moment)) return;
    const close = task.tooCloseTo(change.moment);
    const hand = SIDES.find(
      (each) =>
        context.free[each][change.moment] === 1 &&
        made.every((other, j) => j === i || other.hand !== each || !close.has(other.moment)),
    );
    if (hand !== undefined) made[i] = { ...change, hand, manner: 'lent' };
  });
  return made;
};
