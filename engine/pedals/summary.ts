import { rollups } from 'd3-array';
import { gradePart } from '../difficulty/grade-part.ts';
import type { PedalFinding } from '../findings/catalogue.ts';
import type { SolvedMove } from './course/foot.ts';
import type { PedalSolution } from './course/solve.ts';
import type { PlanSummary } from './model.ts';
import type { PreparedScore } from './pedal-problem.ts';

/** The plan in figures. Where no move lacks time, the plan's own count is the least: moves are counted first. */
export const summarise = (
  prepared: PreparedScore,
  solution: PedalSolution,
  findings: readonly PedalFinding[],
): PlanSummary => {
  const stops = findings.filter((finding) => finding.severity === 'stop');
  return {
    moves: solution.moves.length,
    leastMoves: solution.moves.every((move) => move.manner === 'alone')
      ? solution.moves.length
      : solution.leastMoves(),
    proved: solution.proved,
    busiest: findBusiest(prepared, solution),
    playable: stops.length === 0,
    firstFailure: stops.length === 0 ? null : Math.min(...stops.map((finding) => finding.bar)),
    difficulty: gradePart({
      harp: 'pedal',
      score: prepared.score,
      secondsAt: prepared.secondsAt,
      changes: solution.moves.map((move) => timeMove(prepared, move)),
      findings,
      leftOut: prepared.options.leftOut,
    }),
  };
};

const timeMove = ({ moments }: PreparedScore, { foot, moment, before, cost }: SolvedMove) => {
  const { bar, seconds } = moments.all[moment]!;
  return {
    side: foot,
    bar,
    seconds,
    atThePluck: before !== null && moments.ofNote(before.startNote) === moment,
    bendsString: cost.some(({ name }) => name === 'stringSounding'),
  };
};

const findBusiest = ({ moments }: PreparedScore, { moves }: PedalSolution): PlanSummary['busiest'] => {
  if (moves.length === 0) return null;
  const left = moves.filter((move) => move.foot === 'left').length;
  const foot = left * 2 >= moves.length ? 'left' : 'right';
  const byBar = rollups(
    moves.filter((move) => move.foot === foot),
    (here) => here.length,
    (move) => moments.all[move.moment]!.bar,
  );
  const [bar, movesInBar] = byBar.reduce((a, b) => (b[1] > a[1] ? b : a));
  return { foot, bar, movesInBar };
};
