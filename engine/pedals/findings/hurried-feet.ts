import { help } from '../../findings/help/help.ts';
import { type HurryOf, type MoveInPlace, moveInPlace } from '../../findings/hurried-passages.ts';
import { nameChange } from '../../findings/note-names.ts';
import { UNHURRIED_FEET } from '../../time/hurried-stretches.ts';
import type { SolvedMove } from '../course/foot.ts';
import type { PreparedScore } from '../pedal-problem.ts';
import { whilePlaying } from '../summary.ts';

/** How passages are told in which the feet make more moves than they comfortably can. */
export const HURRY_OF_FEET: HurryOf<'feet-hurried-passage'> = {
  code: 'feet-hurried-passage',
  most: UNHURRIED_FEET,
  help: help('more-time-for-feet', {}),
};

/** The moves of the feet in time, as they are told where the feet hurry. */
export const movesOfFeet = (
  { score, moments }: PreparedScore,
  moves: readonly SolvedMove[],
): readonly MoveInPlace[] =>
  whilePlaying({ moments }, moves).map(({ before, foot, letter, moment, to }) =>
    moveInPlace(score, moments.all[moment]!, foot, () => ({
      hand: null,
      notes: before === null ? [] : [before.note.id],
      sentence: `${nameChange({ letter, position: to })}, ${foot} foot.`,
    })),
  );
