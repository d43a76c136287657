import { rollups } from 'd3-array';
import type { PedalFinding } from '../findings/catalogue.ts';
import type { PedalSolution } from './course/solve.ts';
import type { PlanSummary } from './model.ts';
import type { PedalProblem } from './pedal-problem.ts';

/** The plan in figures. Where no move lacks time, the plan's own count is the least: moves are counted first. */
export const summarise = (
  problem: PedalProblem,
  solution: PedalSolution,
  findings: readonly PedalFinding[],
): PlanSummary => {
  const stops = findings.filter((finding) => finding.severity === 'stop');
  return {
    moves: solution.moves.length,
    minMoves: solution.moves.every((move) => move.manner === 'alone')
      ? solution.moves.length
      : solution.minMoves(),
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
