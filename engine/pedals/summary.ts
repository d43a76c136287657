import { rollups } from 'd3-array';
import type { PedalFinding } from '../findings/catalogue.ts';
import type { Solution } from './course/solve.ts';
import type { PlanSummary } from './model.ts';
import type { FeetProblem } from './prepared.ts';

/** The plan in figures. Where no move lacks time, the plan's own count is the least: moves are counted first. */
export const summarise = (
  problem: FeetProblem,
  solution: Solution,
  findings: readonly PedalFinding[],
): PlanSummary => {
  const stops = findings.filter((finding) => finding.severity === 'stop');
  return {
    moves: solution.moves.length,
    leastMoves: solution.moves.every((move) => move.manner === 'alone')
      ? solution.moves.length
      : solution.leastMoves(),
    proved: solution.proved,
    busiest: findBusiest(problem, solution),
    playable: stops.length === 0,
    firstFailure: stops.length === 0 ? null : Math.min(...stops.map((finding) => finding.bar)),
  };
};

const findBusiest = ({ stage }: FeetProblem, { moves }: Solution): PlanSummary['busiest'] => {
  if (moves.length === 0) return null;
  const byBar = rollups(
    moves,
    (here) => here.length,
    (move) => stage.moments.all[move.moment]!.bar,
  );
  const [bar, movesInBar] = byBar.reduce((a, b) => (b[1] > a[1] ? b : a));
  const left = moves.filter((move) => move.foot === 'left').length;
  return { foot: left * 2 >= moves.length ? 'left' : 'right', bar, movesInBar };
};
