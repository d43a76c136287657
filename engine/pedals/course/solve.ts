import type { Position } from '../../harp/setting.ts';
import { SIDES } from '../../harp/side.ts';
import { LETTERS, type Letter } from '../../music/pitch.ts';
import type { Need } from '../../sounding/needs.ts';
import type { NeedsByLetter } from '../../sounding/placed-needs.ts';
import { type FootPlan, type PedalContext, planFoot, type SolvedMove, solvesSameTask } from './foot.ts';

/** What both feet do for a list of needs. */
export interface PedalSolution {
  readonly feet: readonly FootPlan[];
  readonly initial: ReadonlyMap<Letter, Position>;
  /** In order of moment; at one moment in pedal order. */
  readonly moves: readonly SolvedMove[];
  readonly unmet: readonly Need[];
  /** The number of moves that would do if the feet needed no time; worked out when it is first asked for. */
  readonly minMoves: () => number;
  /** Whether it was proved that no course of either foot is better. */
  readonly provenOptimal: boolean;
}

/**
 * The best plan for the needs: each foot on its own, since they do not hinder each other.
 *
 * @param known an earlier solution: a foot that has the same to do as there is not planned again, and of one that has
 * something else to do only the moments around that
 */
export const solveFeet = (
  needs: NeedsByLetter,
  context: PedalContext,
  known?: PedalSolution,
): PedalSolution => {
  const feet = SIDES.map((foot) => {
    const before = known?.feet.find((each) => each.foot === foot);
    return before !== undefined && solvesSameTask(before, needs, context)
      ? before
      : planFoot(foot, needs, context, before);
  });
  return {
    feet,
    initial: new Map(feet.flatMap((foot) => [...foot.initial])),
    moves: feet
      .flatMap((foot) => foot.moves)
      .sort((a, b) => a.moment - b.moment || LETTERS.indexOf(a.letter) - LETTERS.indexOf(b.letter)),
    unmet: feet.flatMap((foot) => foot.unmet),
    minMoves: () => feet.reduce((sum, foot) => sum + foot.minMoves(), 0),
    provenOptimal: feet.every((foot) => foot.provenOptimal),
  };
};
