import { countPlaces, type Grade } from '../../../../engine/index.ts';
import { STRINGS } from '../../strings/strings.ts';
import { VARIANT_STRINGS } from '../../strings/variant-strings.ts';
import { quartersTold } from '../decisions/places.ts';
import type { BarPlace } from '../planner/planned-part.ts';
import { compareMoves, movesOfOther, movesOfOwn, type TimedMove } from './plan-difference.ts';

const words = VARIANT_STRINGS;

/** A move of either harp, as it is told where plans are compared. */
export interface ToldMove<Move> extends TimedMove {
  readonly move: Move;
  readonly name: string;
  /** Index into the bars, and the beat in it as a fraction. */
  readonly bar: number;
  readonly beat: string;
}

/** A move of the user's own plan. */
export interface OwnMove<Move> extends ToldMove<Move> {
  /** Index into the plan's moves. */
  readonly index: number;
}

/** A place in which two plans differ. */
export interface Difference {
  readonly bar: number;
  readonly quarters: number;
  readonly sentence: string;
}

/** What one row of the table tells of both plans. */
export type ComparedRow = readonly [what: string, here: string, there: string];

/** A plan of the open part that the user's own is compared with, and in what they differ. */
export interface ComparedPlan<Move> {
  /** As the user chose it, in words. */
  readonly name: string;
  readonly rows: readonly ComparedRow[];
  /** In order of time. */
  readonly differences: readonly Difference[];
  /** The moves that only the other plan makes, or makes then. */
  readonly others: readonly ToldMove<Move>[];
  /** The moves that only the user's own plan makes, or makes then. */
  readonly own: readonly OwnMove<Move>[];
}

/** Other choices of planning, in words. */
export interface OtherChoices<Choices> {
  readonly name: string;
  readonly choices: Choices;
}

/** A plan of the open part that the user's own is compared with, as the user chose it, in words. */
export interface OtherPlan<Plan> {
  readonly name: string;
  readonly plan: Plan;
}

/** How plans for one harp are told. */
export interface PlanTelling<Plan, Move> {
  /** What each row of the table tells of a plan. */
  readonly rows: readonly ToldRow<Plan>[];
  readonly moves: (plan: Plan) => readonly ToldMove<Move>[];
}

type ToldRow<Plan> = readonly [name: string, tell: (plan: Plan) => string];

/** Compares the user's own plan of the open part with another. */
export const comparePlans = <Plan, Move>(
  bars: readonly BarPlace[],
  { rows, moves }: PlanTelling<Plan, Move>,
  own: Plan,
  { name, plan: other }: OtherPlan<Plan>,
): ComparedPlan<Move> => ({
  name,
  rows: rows.map(([what, tell]): ComparedRow => [what, tell(own), tell(other)]),
  ...compareTold(bars, asTold(bars, moves(own)), asTold(bars, moves(other))),
});

/** Moves when they are told: what nobody is told apart is no difference. */
const asTold = <Move>(bars: readonly BarPlace[], moves: readonly ToldMove<Move>[]): ToldMove<Move>[] =>
  moves.map((move) => {
    const { bar, beat, quarters } = move;
    return { ...move, quarters: quartersTold({ bars }, { barIndex: bar, beat }, quarters) };
  });

/** What plans for either harp are compared by. */
interface JudgedPlan {
  readonly summary: { readonly difficulty: { readonly grade: Grade } };
  readonly findings: readonly { readonly severity: string; readonly places: readonly unknown[] }[];
}

export const JUDGED_ROWS: readonly ToldRow<JudgedPlan>[] = [
  [words.rows.difficulty, ({ summary }) => STRINGS.difficulty.grade(summary.difficulty.grade)],
  [words.rows.notPlayable, ({ findings }) => `${countPlaces(findings, 'stop')}`],
  [words.rows.warnings, ({ findings }) => `${countPlaces(findings, 'warn')}`],
];

/** Compares the moves of two plans, those of the user's own first. */
const compareTold = <Move>(
  bars: readonly BarPlace[],
  here: readonly ToldMove<Move>[],
  there: readonly ToldMove<Move>[],
): Pick<ComparedPlan<Move>, 'differences' | 'others' | 'own'> => {
  const placeOf = ({ bar, beat }: ToldMove<Move>): string => words.place(bars[bar]!.name, beat);
  const { elsewhere, onlyHere, onlyThere } = compareMoves(here, there);
  const tell = (at: ToldMove<Move>, sentence: string): Difference => ({
    bar: at.bar,
    quarters: at.quarters,
    sentence,
  });
  const differences = [
    ...elsewhere.map((pair) => {
      const [own, other] = [here[pair.here]!, there[pair.there]!];
      return tell(own, words.elsewhere(own.name, placeOf(own), placeOf(other)));
    }),
    ...onlyHere.map((i) => tell(here[i]!, `${words.onlyHere(here[i]!.name)}, ${placeOf(here[i]!)}`)),
    ...onlyThere.map((i) => tell(there[i]!, `${words.onlyThere(there[i]!.name)}, ${placeOf(there[i]!)}`)),
  ].sort((a, b) => a.quarters - b.quarters);
  const difference = { elsewhere, onlyHere, onlyThere };
  return {
    differences,
    others: movesOfOther(difference).map((i) => there[i]!),
    own: movesOfOwn(difference).map((index) => ({ ...here[index]!, index })),
  };
};
