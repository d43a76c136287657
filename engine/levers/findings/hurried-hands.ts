import { findHurriedStretches, UNHURRIED_HANDS } from '../../difficulty/hurried-stretches.ts';
import type { LeverFinding } from '../../findings/catalogue.ts';
import { describeFinding } from '../../findings/describe-finding.ts';
import type { FindingPlace } from '../../findings/model.ts';
import { openAlter } from '../../harp/open-tuning.ts';
import { pitchName } from '../../music/pitch.ts';
import { beatAt } from '../../score/bars/beats.ts';
import type { LeverContext } from '../context.ts';
import type { SolvedChange } from '../course/solve.ts';
import type { LeverProblem } from '../problem.ts';

/** Passages with more lever changes than hands comfortably make, each with all of its changes. */
export const hurriedHands = (
  { score, moments }: LeverContext,
  { strings, tuning }: LeverProblem,
  changes: readonly SolvedChange[],
): LeverFinding[] => {
  const inTime = changes.toSorted((a, b) => a.moment - b.moment);
  const timed = inTime.map(({ hand, moment }) => ({ side: hand, seconds: moments.all[moment]!.seconds }));
  const placeOf = ({ string: index, moment, to, hand }: SolvedChange): FindingPlace => {
    const { bar, at } = moments.all[moment]!;
    const { string, needs } = strings[index]!;
    const before = needs.find((each) => each.moment >= moment)?.need.note;
    return {
      bar,
      barNumber: score.bars[bar]!.number,
      beat: beatAt(score.bars[bar]!, at),
      staff: null,
      hand,
      notes: before === undefined ? [] : [before.id],
      sentence: `${pitchName({ ...string, alter: openAlter(tuning, string) + to })}, ${hand} hand.`,
    };
  };
  return findHurriedStretches(timed, UNHURRIED_HANDS).map(([first, last]) => {
    const inside = inTime.slice(first, last + 1);
    const left = inside.filter(({ hand }) => hand === 'left').length;
    const finding = describeFinding(
      score,
      'hands-hurried-passage',
      {
        moves: inside.length,
        seconds: timed[last]!.seconds - timed[first]!.seconds,
        left,
        right: inside.length - left,
      },
      {
        place: moments.all[inside[0]!.moment]!,
        suggestions: ['Take more time here, or tune the strings so that fewer levers change.'],
      },
    );
    const places = inside.map(placeOf);
    return { ...finding, notes: [...new Set(places.flatMap(({ notes }) => notes))], places };
  });
};
