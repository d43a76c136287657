import type { Foot } from '../../harp/setting.ts';
import type { Letter } from '../../music/pitch.ts';
import { hasRested } from '../../time/rested.ts';
import type { PedalContext, SolvedMove } from './foot.ts';
import type { PedalSolution } from './solve.ts';

/** The pedals that the other foot can reach by crossing over: the innermost ones (common practice, no source). */
const WITHIN_REACH: Readonly<Partial<Record<Letter, Foot>>> = { B: 'right', E: 'left' };

/**
 * Gives moves of B and E that have no time to the other foot where that one is free: a last resort.
 *
 * The moments stay as planned; a crossing is taken only where the other foot has rested before and after.
 */
export const crossFeet = (solution: PedalSolution, context: PedalContext): PedalSolution => {
  const seconds = (move: SolvedMove): number => context.moments.all[move.moment]!.seconds;
  const crossed: SolvedMove[] = [];
  const isFree = (foot: Foot, move: SolvedMove): boolean =>
    [...solution.moves, ...crossed].every(
      (other) =>
        other === move ||
        other.foot !== foot ||
        hasRested(Math.abs(seconds(other) - seconds(move)), context.weights.footRestSeconds),
    );
  const moves = solution.moves.map((move): SolvedMove => {
    const foot = WITHIN_REACH[move.letter];
    if (move.manner !== 'too-soon' || foot === undefined || !isFree(foot, move)) return move;
    const cost = move.cost.filter(({ name }) => name !== 'footTooBusy');
    const taken: SolvedMove = { ...move, foot, manner: 'crossed', cost };
    crossed.push(taken);
    return taken;
  });
  return { ...solution, moves };
};
