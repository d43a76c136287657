import {
  formatChange,
  formatSetting,
  type Move,
  type Plan,
  rationalKey,
  toNumber,
} from '../../../../engine/index.ts';
import { VARIANT_STRINGS } from '../../strings/variant-strings.ts';
import type { PlanChoices } from '../options/choices.ts';
import type { PlannedPart } from '../planner/planned-part.ts';
import {
  type ComparedPlan,
  comparePlans,
  JUDGED_ROWS,
  type OtherChoices,
  type PlanTelling,
  type ToldMove,
} from './compared-plan.ts';

const { rows, free, written } = VARIANT_STRINGS;

const toldMoves = ({ moves }: Plan): readonly ToldMove<Move>[] =>
  moves.map((move) => ({
    move,
    goal: `${move.letter}${move.to}`,
    quarters: toNumber(move.at),
    name: formatChange(move.letter, move.to),
    bar: move.bar,
    beat: rationalKey(move.beat),
  }));

const TELLING: PlanTelling<Plan, Move> = {
  rows: [
    [rows.moves, ({ moves }) => `${moves.length}`],
    ...JUDGED_ROWS,
    [rows.start, ({ initial }) => formatSetting(initial)],
  ],
  moves: toldMoves,
};

/** The plan of the open part beside another for the pedal harp. */
export const comparePedalPlans = (
  { plan, bars }: Pick<PlannedPart, 'plan' | 'bars'>,
  name: string,
  other: Plan,
): ComparedPlan<Move> => comparePlans(bars, TELLING, plan, { name, plan: other });

/** Whether notes may be played on other strings than they are written. */
export const otherSpelling = (choices: PlanChoices): readonly OtherChoices<PlanChoices>[] => [
  choices.spelling === 'free'
    ? { name: written, choices: { ...choices, spelling: 'keep' } }
    : { name: free, choices: { ...choices, spelling: 'free' } },
];
