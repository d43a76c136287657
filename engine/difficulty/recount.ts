import type { HarpKind } from '../harp/harps.ts';
import { mostWithin } from './measure.ts';
import type { Cause, Difficulty, Measures, PlannedDifficulty, TimedChange } from './model.ts';
import { readingsOf } from './readings.ts';
import { THRESHOLDS } from './thresholds.ts';
import { describeCause } from './words.ts';

/**
 * The difficulty of a part with the changes of its passages counted anew, where readers are told them at other moments
 * than the plan makes them. Grades and all that tells of effort (time between changes, bent strings) stay the plan's, and
 * so does the most in ten seconds where those that are told would be a reason for another grade.
 *
 * @param changes those made while the harp plays, in order of time
 * @param planned the part, and its clock in printed order
 */
export const recountChanges = (
  difficulty: Difficulty,
  changes: readonly Pick<TimedChange, 'bar' | 'seconds' | 'onlyAt'>[],
  { harp, ...planned }: Pick<PlannedDifficulty, 'harp' | 'score' | 'secondsAt'>,
): Difficulty => {
  const readings = readingsOf(planned);
  const counted = new Map<Measures, Measures>();
  for (const { from, until, measures } of difficulty.passages) {
    const here = changes.filter(({ bar }) => from <= bar && bar <= until);
    const { seconds } = measures;
    counted.set(measures, {
      ...measures,
      changes: here.length,
      changesPerMinute: seconds === 0 ? 0 : (here.length / seconds) * 60,
      mostInTenSeconds: asHard(mostWithin(readings(here), 10), measures.mostInTenSeconds, harp),
    });
  }
  const recount = (measures: Measures): Measures => counted.get(measures) ?? measures;
  // The part's causes are those of its hardest passage, with its measures.
  const explain = (causes: readonly Cause[]) => {
    const told = causes.map((cause) =>
      'measures' in cause ? { ...cause, measures: recount(cause.measures) } : cause,
    );
    return { causes: told, reasons: told.map((cause) => describeCause(cause, harp)) };
  };
  return {
    ...difficulty,
    ...explain(difficulty.causes),
    passages: difficulty.passages.map((passage) => ({
      ...passage,
      ...explain(passage.causes),
      measures: recount(passage.measures),
    })),
  };
};

const asHard = (told: number, planned: number, harp: HarpKind): number => {
  const reached = (count: number): number =>
    THRESHOLDS[harp].mostInTenSeconds.filter((step) => count >= step).length;
  return reached(told) === reached(planned) ? told : planned;
};
