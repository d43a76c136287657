import {
  formatChange,
  formatSetting,
  type Move,
  type Plan,
  rationalKey,
  toNumber,
} from '../../../../engine/index.ts';
import { STRINGS } from '../../strings/strings.ts';
import { VARIANT_STRINGS } from '../../strings/variant-strings.ts';
import type { PlanChoices } from '../options/choices.ts';
import type { PlannedPart } from '../planner/planned-part.ts';
import {
  type ComparedPlan,
  type ComparedRow,
  compareTold,
  countOf,
  type OtherChoices,
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

/** What each row tells of a plan. */
const TOLD: readonly (readonly [name: string, tell: (plan: Plan) => string])[] = [
  [rows.moves, ({ moves }) => `${moves.length}`],
  [rows.difficulty, ({ summary }) => STRINGS.difficulty.grade(summary.difficulty.grade)],
  [rows.notPlayable, ({ findings }) => countOf(findings, 'stop')],
  [rows.warnings, ({ findings }) => countOf(findings, 'warn')],
  [rows.start, ({ initial }) => formatSetting(initial)],
];

/** The plan of the open part beside another for the pedal harp. */
export const comparePedalPlans = (
  { plan, bars }: Pick<PlannedPart, 'plan' | 'bars'>,
  name: string,
  other: Plan,
): ComparedPlan<Move> => ({
  name,
  rows: TOLD.map(([what, tell]): ComparedRow => [what, tell(plan), tell(other)]),
  ...compareTold(bars, toldMoves(plan), toldMoves(other)),
});

/** Whether notes may be played on other strings than they are written. */
export const otherSpelling = (choices: PlanChoices): readonly OtherChoices<PlanChoices>[] => [
  choices.spelling === 'free'
    ? { name: written, choices: { ...choices, spelling: 'keep' } }
    : { name: free, choices: { ...choices, spelling: 'free' } },
];
