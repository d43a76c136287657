import { type OpenTuning, retunedLetters } from '../../harp/open-tuning.ts';
import { isInRange, stringOf } from '../../harp/profile.ts';
import type { LeverContext } from '../context.ts';
import {
  boundChangesWithoutTime,
  countChangesWithoutTime,
  type LeverSolution,
  solveLevers,
} from '../course/solve.ts';
import type { TuningCost } from '../model.ts';
import { buildLeverProblem, type LeverProblem, tunedStringsKey } from '../problem.ts';
import {
  allTunings,
  type BoundedTuning,
  boundTuningCosts,
  compareTunings,
  costTuning,
  keyTunings,
  pickTunings,
} from './tunings.ts';

/** So many tunings are told of beside the chosen one. */
export const OTHER_TUNINGS_LISTED = 5;

/** Where every letter is tuned by itself, so many are considered beside the key signatures. */
const MOST_CONSIDERED = 12;

/**
 * Other tunings are solved until those that are solved have so many changes together. Music that comes to this with
 * one or two tunings is chromatic throughout: no tuning makes it playable, and each takes seconds.
 */
const MOST_CHANGES_TRIED = 250;

/** A tuning with all changes in it. */
export interface SolvedTuning {
  readonly cost: TuningCost;
  readonly problem: LeverProblem;
  readonly solution: LeverSolution;
  /** Notes that no string gives, and changes for which no hand has time. */
  readonly stops: number;
}

export interface ChosenTuning {
  readonly chosen: SolvedTuning;
  /** The chosen tuning first, then the unhindered one if there is any, then others, the best first. */
  readonly tunings: readonly TuningCost[];
  /** A tuning without stops, where the one that the user chose leaves changes without time. */
  readonly betterTuning: SolvedTuning | null;
  /** Whether every tuning that might leave fewer places unplayable was tried: else the limit ended the search. */
  readonly allTried: boolean;
}

/**
 * Chooses the tuning to plan in: the best by its figures, unless that leaves changes for which no hand has time. Then
 * it is the one with the fewest stops, of those with as few the best by its figures. A tuning that the user named stays
 * in any case.
 *
 * Exact among the key signatures, as long as `MOST_CHANGES_TRIED` lets all be tried that may be better.
 */
export const chooseTuning = (context: LeverContext): ChosenTuning => {
  const inRange = withoutOutOfRange(context);
  const choice = chooseAmongTunings(inRange);
  return inRange === context ? choice : inWhole(choice, context);
};

/**
 * The part without the notes for which the harp has no string: no tuning is chosen for these, though another string
 * might be stretched to one of them.
 */
const withoutOutOfRange = (context: LeverContext): LeverContext => {
  const { profile } = context.options;
  const pitchNeeds = context.pitchNeeds.filter(({ pitch }) => isInRange(profile, stringOf(pitch)));
  return pitchNeeds.length === context.pitchNeeds.length ? context : { ...context, pitchNeeds };
};

/** The same choice with all notes of the part: one out of range is played on a neighbour where the tuning has it so. */
const inWhole = (
  { chosen, tunings, betterTuning, allTried }: ChosenTuning,
  context: LeverContext,
): ChosenTuning => {
  const costOf = ({ tuning }: TuningCost): TuningCost =>
    costTuning(context, buildLeverProblem(context, tuning));
  return {
    chosen: solveIn(context, costOf(chosen.cost)),
    tunings: tunings.map(costOf),
    betterTuning: betterTuning === null ? null : solveIn(context, costOf(betterTuning.cost)),
    allTried,
  };
};

const chooseAmongTunings = (context: LeverContext): ChosenTuning => {
  const { tuning: choice, weights } = context.options;
  const inKeys = boundTuningCosts(context, keyTunings(context));
  const keys = pickTunings(inKeys, compareTunings(weights), OTHER_TUNINGS_LISTED + 1);
  const order = orderFor(context);
  const inAll = choice === 'best' ? boundTuningCosts(context, allTunings(context)) : inKeys;
  const first = solveIn(
    context,
    typeof choice === 'string'
      ? pickTunings(inAll, order, 1)[0]!
      : costTuning(context, buildLeverProblem(context, choice)),
  );
  const { best, allTried } =
    countChangesWithoutTime(first.solution) === 0
      ? { best: first, allTried: true }
      : tryOthers(context, first, listCandidates(inKeys, inAll, order));
  const isNamed = typeof choice !== 'string';
  const chosen = isNamed ? first : best;
  const betterTuning = isNamed && best !== first && best.stops === 0 ? best : null;
  const listed = [chosen.cost, ...(betterTuning === null ? [] : [betterTuning.cost]), ...keys];
  return {
    chosen,
    tunings: listed.filter(({ name }, i) => listed.findIndex((each) => each.name === name) === i),
    betterTuning,
    allTried,
  };
};

/** Where the user named a tuning, others are ranked as they are by default. */
const orderFor = ({ options }: LeverContext): ReturnType<typeof compareTunings> => {
  const { tuning, weights, profile } = options;
  const priceOfRetuning = (other: OpenTuning): number =>
    weights.retunedLetter * retunedLetters(profile.tuning, other).length;
  return tuning === 'best' || tuning === 'best-key'
    ? compareTunings(weights)
    : compareTunings(weights, priceOfRetuning);
};

/** Tunings that differ on the strings that are played, the best by their figures first. */
const listCandidates = (
  inKeys: readonly BoundedTuning[],
  inAll: readonly BoundedTuning[],
  order: ReturnType<typeof compareTunings>,
): readonly TuningCost[] => {
  const strings = (tuning: BoundedTuning): string => tuning.strings();
  const keys = pickTunings(inKeys, order, inKeys.length, strings);
  if (inAll === inKeys) return keys;
  return [...pickTunings(inAll, order, MOST_CONSIDERED, strings), ...keys].sort(order);
};

const solveIn = (context: LeverContext, cost: TuningCost): SolvedTuning => {
  const problem = buildLeverProblem(context, cost.tuning);
  const solution = solveLevers(context, problem);
  return { cost, problem, solution, stops: cost.missingNotes + countChangesWithoutTime(solution) };
};

/**
 * The solved tuning with the fewest stops, of those with as few the first listed; the one given comes before all. They
 * are solved in the order of the stops that they have at least, until none that is left can be better.
 */
const tryOthers = (
  context: LeverContext,
  first: SolvedTuning,
  candidates: readonly TuningCost[],
): { readonly best: SolvedTuning; readonly allTried: boolean } => {
  const known = new Set([tunedStringsKey(first.problem)]);
  const promising = candidates
    .map((cost, place) => ({ cost, place, problem: buildLeverProblem(context, cost.tuning) }))
    .filter(({ problem }) => {
      const name = tunedStringsKey(problem);
      return !known.has(name) && known.add(name);
    })
    .map(({ cost, place, problem }) => ({
      cost,
      place,
      least: cost.missingNotes + boundChangesWithoutTime(context, problem),
    }))
    .sort((a, b) => a.least - b.least || a.place - b.place);
  let best: { readonly solved: SolvedTuning; readonly place: number } = { solved: first, place: -1 };
  let changesTried = first.cost.changes;
  for (const { cost, place, least } of promising) {
    const { stops } = best.solved;
    const cannotWin = least > stops || (least === stops && place > best.place);
    if (cannotWin) break;
    if (changesTried >= MOST_CHANGES_TRIED) return { best: best.solved, allTried: false };
    const solved = solveIn(context, cost);
    changesTried += cost.changes;
    if (solved.stops < stops || (solved.stops === stops && place < best.place)) best = { solved, place };
  }
  return { best: best.solved, allTried: true };
};
