import { retunedLetters } from '../../harp/open-tuning.ts';
import { isInRange, stringOf } from '../../harp/profile.ts';
import type { LeverContext } from '../context.ts';
import {
  boundTroubles,
  countBentStrings,
  countChangesWithoutTime,
  type LeverSolution,
  solveLevers,
} from '../course/solve.ts';
import type { ListedTuning, TuningCost } from '../model.ts';
import { buildLeverProblem, type LeverProblem, tunedStringsKey } from '../problem.ts';
import {
  allTunings,
  type BoundedTuning,
  boundTuningCosts,
  compareTunings,
  costTuning,
  keyTunings,
  nearTunings,
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
  /** Of its changes, those while their string sounds for more, and of what is done beforehand where that counts. */
  readonly price: number;
}

export interface ChosenTuning {
  readonly chosen: SolvedTuning;
  /** The chosen tuning first, then the best that leaves fewer stops if there is any, then others, the best first. */
  readonly tunings: readonly ListedTuning[];
  /** Tunings that were solved and leave fewer stops than the one that the user chose; the best first. */
  readonly better: readonly SolvedTuning[];
  /** Whether every tuning that might leave fewer places unplayable was tried: else the limit ended the search. */
  readonly allTried: boolean;
}

/**
 * Chooses the tuning to plan in: the best by its figures, unless that leaves notes that no string gives, changes for
 * which no hand has time, or changes while their string sounds. Then it is the one with the fewest stops, of those with as few the one at the least price,
 * which counts such changes for more: so strings are retuned before the tune rather than bent in it. A tuning that the
 * user named stays in any case.
 *
 * Exact among the tunings that are listed (see `keyTunings` and `nearTunings`), as long as `MOST_CHANGES_TRIED` lets
 * all be tried that may be better.
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
  { chosen, tunings, better, allTried }: ChosenTuning,
  context: LeverContext,
): ChosenTuning => {
  const costOf = ({ tuning }: TuningCost): TuningCost =>
    costTuning(context, buildLeverProblem(context, tuning));
  const listedAs = (listed: ListedTuning): ListedTuning => {
    const cost = costOf(listed);
    const added = cost.missingNotes - listed.missingNotes;
    return { ...cost, stops: listed.stops === null ? null : listed.stops + added };
  };
  const solved = solveIn(context, costOf(chosen.cost));
  return {
    chosen: solved,
    tunings: tunings.map(listedAs),
    better: better
      .map(({ cost }) => solveIn(context, costOf(cost)))
      .filter(({ stops }) => stops < solved.stops),
    allTried,
  };
};

const chooseAmongTunings = (context: LeverContext): ChosenTuning => {
  const { options, weights } = context;
  const { tuning: choice } = options;
  const order = orderFor(context);
  const inKeys = boundTuningCosts(context, keyTunings(context));
  const keys = pickTunings(inKeys, compareTunings(weights), inKeys.length).slice(0, OTHER_TUNINGS_LISTED + 1);
  const considered =
    choice === 'best-key' ? inKeys : [...inKeys, ...boundTuningCosts(context, nearTunings(context))];
  const inAll = choice === 'best' ? boundTuningCosts(context, allTunings(context)) : [];
  const candidates = listCandidates(considered, inAll, order);
  const isNamed = typeof choice !== 'string';
  const first = solveIn(
    context,
    isNamed ? costTuning(context, buildLeverProblem(context, choice)) : candidates[0]!,
  );
  const isGood = first.stops === 0 && (isNamed || countBentStrings(first.solution) === 0);
  const { best, solved, allTried } = isGood
    ? { best: first, solved: [first], allTried: true }
    : tryOthers(context, first, candidates);
  const chosen = isNamed ? first : best;
  const better = solved.filter(({ stops }) => stops < chosen.stops).sort(compareSolved);
  const listed = [chosen.cost, ...better.slice(0, 1).map(({ cost }) => cost), ...keys];
  const stopsOf = new Map(solved.map(({ cost, stops }) => [cost.name, stops]));
  return {
    chosen,
    tunings: listed
      .filter(({ name }, i) => listed.findIndex((each) => each.name === name) === i)
      .map((cost) => ({ ...cost, stops: stopsOf.get(cost.name) ?? null })),
    better,
    allTried,
  };
};

/**
 * What the letters to retune and the notes on other strings count for: nothing where the user wants the fewest changes
 * whatever is retuned.
 */
const priceBeforehand = (
  { options: { tuning: choice, profile }, weights }: LeverContext,
  { tuning, respelled }: Pick<TuningCost, 'tuning' | 'respelled'>,
): number =>
  choice === 'best' || choice === 'best-key'
    ? 0
    : weights.retunedLetter * retunedLetters(profile.tuning, tuning).length +
      weights.neighbourNote * respelled;

/** Where the user named a tuning, others are ranked as they are by default. */
const orderFor = (context: LeverContext): ReturnType<typeof compareTunings> =>
  compareTunings(context.weights, (rank) => priceBeforehand(context, rank));

/** Tunings that differ on the strings that are played, the best by their figures first. */
const listCandidates = (
  considered: readonly BoundedTuning[],
  inAll: readonly BoundedTuning[],
  order: ReturnType<typeof compareTunings>,
): readonly TuningCost[] => {
  const strings = (tuning: BoundedTuning): string => tuning.strings();
  const near = pickTunings(considered, order, considered.length, strings);
  if (inAll.length === 0) return near;
  return [...pickTunings(inAll, order, MOST_CONSIDERED, strings), ...near].sort(order);
};

const solveIn = (context: LeverContext, cost: TuningCost): SolvedTuning => {
  const { weights } = context;
  const problem = buildLeverProblem(context, cost.tuning);
  const solution = solveLevers(context, problem);
  return {
    cost,
    problem,
    solution,
    stops: cost.missingNotes + countChangesWithoutTime(solution),
    price:
      weights.change * solution.changes.length +
      weights.bentString * countBentStrings(solution) +
      priceBeforehand(context, cost),
  };
};

/** A tuning that is not solved, with what it comes to at least. */
interface PromisingTuning {
  readonly cost: TuningCost;
  readonly place: number;
  readonly stops: number;
  readonly price: number;
}

const boundTuning = (
  context: LeverContext,
  cost: TuningCost,
  problem: LeverProblem,
): Pick<PromisingTuning, 'stops' | 'price'> => {
  const { weights } = context;
  const { changesWithoutTime, bentStrings } = boundTroubles(context, problem);
  return {
    stops: cost.missingNotes + changesWithoutTime,
    price: weights.change * cost.changes + weights.bentString * bentStrings + priceBeforehand(context, cost),
  };
};

type Ranked = Pick<PromisingTuning, 'stops' | 'price' | 'place'>;

const compareSolved = (a: Omit<Ranked, 'place'>, b: Omit<Ranked, 'place'>): number =>
  a.stops - b.stops || a.price - b.price;

const compareRanked = (a: Ranked, b: Ranked): number => compareSolved(a, b) || a.place - b.place;

/**
 * The solved tuning with the fewest stops, then the least price, then the first listed; the one given comes before all.
 * They are solved in the order of what they come to at least, until none that is left can be better.
 */
const tryOthers = (
  context: LeverContext,
  first: SolvedTuning,
  candidates: readonly TuningCost[],
): {
  readonly best: SolvedTuning;
  /** Those that were planned in. */
  readonly solved: readonly SolvedTuning[];
  readonly allTried: boolean;
} => {
  const known = new Set([tunedStringsKey(first.problem)]);
  const promising = candidates
    .map((cost, place) => ({ cost, place, problem: buildLeverProblem(context, cost.tuning) }))
    .filter(({ problem }) => {
      const name = tunedStringsKey(problem);
      return !known.has(name) && known.add(name);
    })
    .map(({ cost, place, problem }) => ({ cost, place, ...boundTuning(context, cost, problem) }))
    .sort(compareRanked);
  let best: { readonly solved: SolvedTuning; readonly place: number } = { solved: first, place: -1 };
  const rankOfBest = (): Ranked => ({ ...best.solved, place: best.place });
  const tried = [first];
  let changesTried = first.cost.changes;
  for (const { cost, ...least } of promising) {
    if (compareRanked(least, rankOfBest()) > 0) break;
    if (changesTried >= MOST_CHANGES_TRIED) return { best: best.solved, solved: tried, allTried: false };
    const solved = solveIn(context, cost);
    tried.push(solved);
    changesTried += cost.changes;
    if (compareRanked({ ...solved, place: least.place }, rankOfBest()) < 0)
      best = { solved, place: least.place };
  }
  return { best: best.solved, solved: tried, allTried: true };
};
