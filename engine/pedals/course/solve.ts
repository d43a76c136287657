import type { Position } from '../../harp/setting.ts';
import { LETTERS, type Letter } from '../../music/pitch.ts';
import type { Need } from '../../sounding/needs.ts';
import type { NeedsByLetter } from '../../sounding/placed-needs.ts';
import { type FootPlan, isSameTask, type PlacedMove, planFoot, type Stage } from './foot.ts';

/** What both feet do for a list of needs. */
export interface Solution {
  readonly feet: readonly FootPlan[];
  readonly initial: ReadonlyMap<Letter, Position>;
  /** In order of moment; at one moment in pedal order. */
  readonly moves: readonly PlacedMove[];
  readonly unserved: readonly Need[];
  /** The number of moves that would do if the feet needed no time; worked out when it is first asked for. */
  readonly leastMoves: () => number;
  /** Whether it was proved that no course of either foot is better. */
  readonly proved: boolean;
}

/**
 * The best plan for the needs: each foot on its own, since they do not hinder each other.
 *
 * @param known an earlier solution: a foot that has the same to do as there is not planned again
 */
export const solveFeet = (needs: NeedsByLetter, stage: Stage, known?: Solution): Solution => {
  const feet = (['left', 'right'] as const).map((foot) => {
    const before = known?.feet.find((each) => each.foot === foot);
    return before !== undefined && isSameTask(before, needs, stage) ? before : planFoot(foot, needs, stage);
  });
  return {
    feet,
    initial: new Map(feet.flatMap((foot) => [...foot.initial])),
    moves: feet
      .flatMap((foot) => foot.moves)
      .sort((a, b) => a.moment - b.moment || LETTERS.indexOf(a.letter) - LETTERS.indexOf(b.letter)),
    unserved: feet.flatMap((foot) => foot.unserved),
    leastMoves: () => feet.reduce((sum, foot) => sum + foot.leastMoves(), 0),
    proved: feet.every((foot) => foot.proved),
  };
};

/** Places that a solution leaves unplayable. */
export const countStops = (solution: Solution): number =>
  solution.unserved.length + solution.moves.filter((move) => move.manner === 'too-soon').length;
