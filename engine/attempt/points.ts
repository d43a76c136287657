import { type JudgedChange, type Points, VERDICTS, type Verdict } from './model.ts';

/** Full points for what is right, half for what has a better place; what is needless does not count. */
const POINTS: Readonly<Record<Verdict, number | null>> = {
  right: 2,
  'better-place': 1,
  wrong: 0,
  missing: 0,
  needless: null,
};

const FULL_POINTS = 2;

export const countPoints = (changes: readonly Pick<JudgedChange, 'verdict'>[]): Points => {
  const counted = changes.flatMap(({ verdict }) => POINTS[verdict] ?? []);
  return { given: counted.reduce((sum, each) => sum + each, 0), most: FULL_POINTS * counted.length };
};

/** How many changes got each verdict. */
export const countVerdicts = (
  changes: readonly Pick<JudgedChange, 'verdict'>[],
): Readonly<Record<Verdict, number>> =>
  Object.fromEntries(
    VERDICTS.map((verdict) => [verdict, changes.filter((each) => each.verdict === verdict).length]),
  ) as Record<Verdict, number>;
