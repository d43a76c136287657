import { findHurriedStretches, UNHURRIED_FEET } from '../../difficulty/hurried-stretches.ts';
import { nameChange } from '../../findings/catalogue/entry.ts';
import type { PedalFinding } from '../../findings/catalogue.ts';
import { describeFinding } from '../../findings/describe-finding.ts';
import type { FindingPlace } from '../../findings/model.ts';
import { beatAt } from '../../score/bars/beats.ts';
import type { SolvedMove } from '../course/foot.ts';
import type { PreparedScore } from '../pedal-problem.ts';

/** Passages in which the feet make more moves than they comfortably can, each with all of its moves. */
export const hurriedFindings = (
  { score, moments }: PreparedScore,
  moves: readonly SolvedMove[],
): PedalFinding[] => {
  const timed = moves.map(({ foot, moment }) => ({ side: foot, seconds: moments.all[moment]!.seconds }));
  return findHurriedStretches(timed, UNHURRIED_FEET).map(([first, last]) => {
    const inside = moves.slice(first, last + 1);
    const seconds = timed[last]!.seconds - timed[first]!.seconds;
    const left = inside.filter(({ foot }) => foot === 'left').length;
    const finding = describeFinding(
      score,
      'feet-hurried-passage',
      { moves: inside.length, seconds, left, right: inside.length - left },
      {
        place: moments.all[inside[0]!.moment]!,
        suggestions: [
          'Take more time here, play notes on neighbouring strings, or share the passage with a second harp.',
        ],
      },
    );
    const places = inside.map((move): FindingPlace => {
      const { bar, at } = moments.all[move.moment]!;
      return {
        bar,
        barNumber: score.bars[bar]!.number,
        beat: beatAt(score.bars[bar]!, at),
        staff: null,
        hand: null,
        notes: move.before === null ? [] : [move.before.note.id],
        sentence: `${nameChange({ letter: move.letter, position: move.to })}, ${move.foot} foot.`,
      };
    });
    return { ...finding, notes: [...new Set(places.flatMap(({ notes }) => notes))], places };
  });
};
