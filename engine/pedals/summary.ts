import { rollups } from 'd3-array';
import type { PedalFinding } from '../findings/catalogue.ts';
import type { PedalSolution } from './course/solve.ts';
import type { PlanSummary } from './model.ts';
import type { PedalProblem } from './pedal-problem.ts';
import { putsMovesFirst } from './weights.ts';

/**
 * The moves without which no plan of the notes as they are spelled can be played. Where the plan is proved the best and no move
 * lacks time its own count is the least, unless something else is put before the number of moves: by weights that a
 * user gave, or by moments that are forbidden to moves.
 */
export const leastMovesAsWritten = ({ context }: PedalProblem, solution: PedalSolution): number => {
  const { moves, provenOptimal } = solution;
  const isFewest =
    provenOptimal &&
    moves.every(({ manner }) => manner === 'alone') &&
    putsMovesFirst(context.weights, moves.length) &&
    context.moments.all.every((_, moment) => !context.isForbidden(moment));
  return isFewest ? moves.length : solution.minMoves();
};

/** The plan in figures. */
export const summarise = (
  problem: PedalProblem,
  solution: PedalSolution,
  findings: readonly PedalFinding[],
  minMoves: number,
): PlanSummary => {
  const stops = findings.filter((finding) => finding.severity === 'stop');
  return {
    moves: solution.moves.length,
    minMoves,
    provenOptimal: solution.provenOptimal,
    busiest: findBusiest(problem, solution),
    playable: stops.length === 0,
    firstFailure: stops.length === 0 ? null : Math.min(...stops.map((finding) => finding.bar)),
  };
};

const findBusiest = ({ context }: PedalProblem, { moves }: PedalSolution): PlanSummary['busiest'] => {
  if (moves.length === 0) return null;
  const byBar = rollups(
    moves,
    (here) => here.length,
    (move) => context.moments.all[move.moment]!.bar,
  );
  const [bar, movesInBar] = byBar.reduce((a, b) => (b[1] > a[1] ? b : a));
  const left = moves.filter((move) => move.foot === 'left').length;
  return { foot: left * 2 >= moves.length ? 'left' : 'right', bar, movesInBar };
};
