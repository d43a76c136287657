import type { Side } from '../../harp/side.ts';
import type { OneTime } from '../../score/bars/one-time.ts';
import { type LeverContext, printedSeconds } from '../context.ts';
import type { LeverProblem, PlayedString } from '../problem.ts';
import { followLever } from '../strings/lever-positions.ts';
import type { LeverNeed } from '../strings/strings.ts';
import { buildLeverCosts, type LeverCosts } from './lever-costs.ts';
import { type LeverTask, restsOfHands, type ScheduledLeverChange } from './lever-task.ts';
import { findLeverSchedule } from './schedule.ts';
import { handOfSlot, momentOfSlot, type Slot, slotOf } from './slots.ts';
import { leastPrice } from './subproblems.ts';

/** A change with how it is made. */
export interface SolvedChange {
  /** Index of the string among those that are played. */
  readonly string: number;
  readonly moment: number;
  readonly to: 0 | 1;
  readonly hand: Side;
  /** `lent`: the right hand has to help; `no-free-hand`, `too-soon`: there is no time for it. */
  readonly manner: 'alone' | 'lent' | 'no-free-hand' | 'too-soon';
  readonly restores: boolean;
  /** The one time of playing at which it is made; null where it is each time. */
  readonly onlyAt: OneTime | null;
}

/** What is done to all levers. */
export interface LeverSolution {
  /** By string: whether its lever is up before the first note. */
  readonly isUpAtStart: readonly boolean[];
  readonly changes: readonly SolvedChange[];
  /** Needs whose string stands at its other pitch, since others at the same moment outnumber them. */
  readonly unmet: readonly LeverNeed[];
  readonly cost: number;
  readonly provenOptimal: boolean;
  readonly prices: LeverCosts;
}

/** Terms of a price that say that the change cannot be made there. */
const NO_TIME: ReadonlySet<string> = new Set(['noFreeHand', 'noLead']);

const BENDS: ReadonlySet<string> = new Set(['stringSounding']);

const hasTerm = (
  { termsAt }: LeverCosts,
  wanted: ReadonlySet<string>,
  string: number,
  slot: Slot,
  time: OneTime | null,
): boolean => termsAt(string, slot, time).some(({ name }) => wanted.has(name));

/** The changes for which no hand has time. */
export const countChangesWithoutTime = ({ changes }: Pick<LeverSolution, 'changes'>): number =>
  changes.filter(({ manner }) => manner === 'no-free-hand' || manner === 'too-soon').length;

/** The changes that are made while their string sounds. */
export const countBentStrings = ({ changes, prices }: Pick<LeverSolution, 'changes' | 'prices'>): number =>
  changes.filter(({ string, moment, hand, onlyAt }) =>
    hasTerm(prices, BENDS, string, slotOf(moment, hand), onlyAt),
  ).length;

/** What no solution has fewer of: each lever's matters looked at alone. */
export interface LeastTroubles {
  readonly changesWithoutTime: number;
  readonly bentStrings: number;
}

export const boundTroubles = (context: LeverContext, problem: LeverProblem): LeastTroubles => {
  const prices = buildLeverCosts(context, problem);
  const aboveAnySum = context.graph.moments + 1;
  const leastWith = (terms: ReadonlySet<string>): number =>
    problem.subproblems.reduce((sum, subproblem) => {
      const { string } = subproblem;
      const least = leastPrice(
        subproblem,
        (moment, time) =>
          prices.slotsAt(string, moment).every((slot) => hasTerm(prices, terms, string, slot, time))
            ? aboveAnySum + 1
            : 1,
        { enough: aboveAnySum },
      );
      return sum + Math.floor(least / aboveAnySum);
    }, 0);
  return { changesWithoutTime: leastWith(NO_TIME), bentStrings: leastWith(BENDS) };
};

export const solveLevers = (context: LeverContext, problem: LeverProblem): LeverSolution => {
  const prices = buildLeverCosts(context, problem);
  const course = findLeverSchedule(problem.subproblems, buildLeverTask(context, prices));
  const movesOf = (string: number) => course.moves.filter((move) => move.string === string);
  const leverPositions = problem.strings.map((string, i) =>
    followLever(string, new Set(movesOf(i).map(({ slot }) => momentOfSlot(slot))), context.graph),
  );
  const changes = course.moves.map(({ string, slot, byTime, tooSoon }): SolvedChange => {
    const [moment, hand] = [momentOfSlot(slot), handOfSlot(slot)];
    const onlyAt = byTime?.time ?? null;
    const hasNoTime = hasTerm(prices, NO_TIME, string, slot, onlyAt);
    return {
      string,
      moment,
      to: byTime?.to ?? (leverPositions[string]![moment] === 1 ? 1 : 0),
      hand,
      manner: tooSoon ? 'too-soon' : hasNoTime ? 'no-free-hand' : hand === 'right' ? 'lent' : 'alone',
      restores: byTime === null && arrivesThere(context, leverPositions[string]!, moment),
      onlyAt,
    };
  });
  return {
    isUpAtStart: problem.strings.map((string, i) =>
      isUpAtStart(string, movesOf(i), leverPositions[i]!, context),
    ),
    changes,
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

/**
 * A lever is set beforehand as its first note needs; otherwise only where a change that is alike at all times of playing
 * stands before that note, for who comes back.
 */
const isUpAtStart = (
  { choices }: PlayedString,
  own: readonly ScheduledLeverChange[],
  positions: Uint8Array,
  { graph: { start, played } }: LeverContext,
): boolean => {
  const first = played.findIndex((moment) => choices.at[moment]!.length === 1);
  const before = new Set(played.slice(0, first + 1));
  const isChanged = own.some(({ slot, byTime }) => byTime === null && before.has(momentOfSlot(slot)));
  return positions[first < 0 || isChanged ? start : played[first]!] === 1;
};

const buildLeverTask = (
  { graph, options, weights }: LeverContext,
  { slotsAt, priceAt, leastPriceAt }: LeverCosts,
): LeverTask => ({
  slotsAt,
  priceAt,
  leastPriceAt,
  ...restsOfHands(graph, options.leverSeconds),
  noTime: weights.noTime,
  byTime: weights.byTime,
  printedSeconds: printedSeconds(graph),
  leverSeconds: options.leverSeconds,
});

const arrivesThere = ({ graph }: LeverContext, leverPositions: Uint8Array, moment: number): boolean => {
  const step = graph.into[moment]!.find((edge) => edge.from === moment - 1);
  return step === undefined ? moment === graph.start : leverPositions[step.from] === leverPositions[moment];
};
