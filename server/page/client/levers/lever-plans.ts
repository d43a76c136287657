import type { LeverPlanReport } from '../../../api/answers/lever-report.ts';
import { LEVER_STRINGS } from '../../strings/lever-strings.ts';
import { VARIANT_STRINGS } from '../../strings/variant-strings.ts';
import type { LeverChoices } from '../options/choices.ts';
import type { BarPlace } from '../planner/planned-part.ts';
import {
  type ComparedPlan,
  comparePlans,
  JUDGED_ROWS,
  type OtherChoices,
  type PlanTelling,
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

const TELLING: PlanTelling<LeverPlanReport, LeverMove> = {
  rows: [
    [rows.changes, ({ moves }) => `${moves.length}`],
    ...JUDGED_ROWS,
    [rows.tuning, ({ tuning }) => tuning],
    [rows.start, ({ levers }) => LEVER_STRINGS.summary.levers(levers)],
  ],
  moves: toldMoves,
};

/** The plan of the open part beside another for the lever harp. */
export const compareLeverPlans = (
  bars: readonly BarPlace[],
  own: LeverPlanReport,
  name: string,
  other: LeverPlanReport,
): ComparedPlan<LeverMove> => comparePlans(bars, TELLING, own, { name, plan: other });

/** The other tunings that were considered. */
export const otherTunings = (
  choices: LeverChoices,
  { tunings }: Pick<LeverPlanReport, 'tunings'>,
): readonly OtherChoices<LeverChoices>[] =>
  tunings.slice(1).map(({ name: tuning }) => ({ name: tuned(tuning), choices: { ...choices, tuning } }));
