import { help } from '../../findings/help/help.ts';
import { type HurryOf, type MoveInPlace, moveInPlace } from '../../findings/hurried-passages.ts';
import { openAlter } from '../../harp/open-tuning.ts';
import { pitchName } from '../../music/pitch.ts';
import { UNHURRIED_HANDS } from '../../time/hurried-stretches.ts';
import type { LeverContext } from '../context.ts';
import type { SolvedChange } from '../course/solve.ts';
import type { LeverProblem } from '../problem.ts';

/** How passages are told in which the hands make more lever changes than they comfortably can. */
export const HURRY_OF_HANDS: HurryOf<'hands-hurried-passage'> = {
  code: 'hands-hurried-passage',
  most: UNHURRIED_HANDS,
  help: help('more-time-for-hands', {}),
};

/** The lever changes in time, as they are told where the hands hurry. */
export const changesOfHands = (
  { score, moments }: LeverContext,
  { strings, tuning }: LeverProblem,
  changes: readonly SolvedChange[],
): readonly MoveInPlace[] =>
  changes
    .filter(({ moment }) => moments.all[moment]!.pause === null)
    .toSorted((a, b) => a.moment - b.moment)
    .map(({ string: index, moment, to, hand }) => {
      const { string, needs } = strings[index]!;
      return moveInPlace(score, moments.all[moment]!, hand, () => {
        const next = needs.find((each) => each.moment >= moment);
        return {
          hand,
          notes: next === undefined ? [] : [next.need.note.id],
          sentence: `${pitchName({ ...string, alter: openAlter(tuning, string) + to })}, ${hand} hand.`,
        };
      });
    });
