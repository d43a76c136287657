import type { LeverPlanReport } from '../../../api/answers/lever-report.ts';
import { LEVER_STRINGS } from '../../strings/lever-strings.ts';
import { STRINGS } from '../../strings/strings.ts';
import { VARIANT_STRINGS } from '../../strings/variant-strings.ts';
import type { LeverChoices } from '../options/choices.ts';
import type { BarPlace } from '../planner/planned-part.ts';
import {
  type ComparedPlan,
  type ComparedRow,
  compareTold,
  countOf,
  type OtherChoices,
  type ToldMove,
} from '../variants/compared-plan.ts';
import { type LeverMove, quartersOf } from './lever-moves.ts';

const { rows, tuned } = VARIANT_STRINGS;

const toldMoves = ({ moves }: LeverPlanReport): readonly ToldMove<LeverMove>[] =>
  moves.map((move) => ({
    move,
    goal: `${move.string} ${move.to}`,
    quarters: quartersOf(move.at),
    name: move.change,
    bar: move.barIndex,
    beat: move.beat,
  }));

/** What each row tells of a plan. */
const TOLD: readonly (readonly [name: string, tell: (plan: LeverPlanReport) => string])[] = [
  [rows.changes, ({ moves }) => `${moves.length}`],
  [rows.difficulty, ({ summary }) => STRINGS.difficulty.grade(summary.difficulty.grade)],
  [rows.notPlayable, ({ findings }) => countOf(findings, 'stop')],
  [rows.warnings, ({ findings }) => countOf(findings, 'warn')],
  [rows.tuning, ({ tuning }) => tuning],
  [rows.start, ({ levers }) => LEVER_STRINGS.summary.levers(levers)],
];

/** The plan of the open part beside another for the lever harp. */
export const compareLeverPlans = (
  bars: readonly BarPlace[],
  own: LeverPlanReport,
  name: string,
  other: LeverPlanReport,
): ComparedPlan<LeverMove> => ({
  name,
  rows: TOLD.map(([what, tell]): ComparedRow => [what, tell(own), tell(other)]),
  ...compareTold(bars, toldMoves(own), toldMoves(other)),
});

/** The other tunings that were considered. */
export const otherTunings = (
  choices: LeverChoices,
  { tunings }: Pick<LeverPlanReport, 'tunings'>,
): readonly OtherChoices<LeverChoices>[] =>
  tunings.slice(1).map(({ name: tuning }) => ({ name: tuned(tuning), choices: { ...choices, tuning } }));
