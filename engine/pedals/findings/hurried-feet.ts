import { UNHURRIED_FEET } from '../../difficulty/hurried-stretches.ts';
import { nameChange } from '../../findings/catalogue/entry.ts';
import type { HurryOf, MoveInPlace } from '../../findings/hurried-passages.ts';
import { beatAt } from '../../score/bars/beats.ts';
import type { SolvedMove } from '../course/foot.ts';
import type { PreparedScore } from '../pedal-problem.ts';

/** How passages are told in which the feet make more moves than they comfortably can. */
export const HURRY_OF_FEET: HurryOf<'feet-hurried-passage'> = {
  code: 'feet-hurried-passage',
  most: UNHURRIED_FEET,
  advice: 'Take more time here, play notes on neighbouring strings, or share the passage with a second harp.',
};

/** The moves of the feet in time, as they are told where the feet hurry. */
export const movesOfFeet = (
  { score, moments }: PreparedScore,
  moves: readonly SolvedMove[],
): readonly MoveInPlace[] =>
  moves.map((move) => {
    const { bar, at, seconds } = moments.all[move.moment]!;
    return {
      side: move.foot,
      seconds,
      at,
      place: {
        bar,
        barNumber: score.bars[bar]!.number,
        beat: beatAt(score.bars[bar]!, at),
        staff: null,
        hand: null,
        notes: move.before === null ? [] : [move.before.note.id],
        sentence: `${nameChange({ letter: move.letter, position: move.to })}, ${move.foot} foot.`,
      },
    };
  });
