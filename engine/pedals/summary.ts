import { gradePart } from '../difficulty/grade-part.ts';
import { playability } from '../findings/count-places.ts';
import type { PedalFinding } from '../findings/model.ts';
import { group } from '../group.ts';
import type { SolvedMove } from './course/foot.ts';
import { bendsString } from './course/move-cost.ts';
import type { PedalSolution } from './course/solve.ts';
import type { PlanSummary } from './model.ts';
import type { PedalProblem, PreparedScore } from './pedal-problem.ts';
import { putsMovesFirst } from './weights.ts';

/**
 * The moves without which no plan of the notes as they are spelled can be played. Where the plan is proved the best and no move
 * lacks time its own count is the least, unless something else is put before the number of moves: by weights that a
 * user gave, or by moments that are forbidden to moves.
 */
export const minMovesAsWritten = ({ context }: PedalProblem, solution: PedalSolution): number => {
  const { moves, provenOptimal } = solution;
  const isFewest =
    provenOptimal &&
    moves.every(({ manner }) => manner === 'alone') &&
    putsMovesFirst(context.weights, moves.length) &&
    context.forbidden.size === 0;
  return isFewest ? moves.length : solution.minMoves();
};

/** The plan in figures. */
export const summarise = (
  prepared: PreparedScore,
  solution: PedalSolution,
  findings: readonly PedalFinding[],
  minMoves: number,
): PlanSummary => {
  return {
    moves: solution.moves.length,
    minMoves,
    provenOptimal: solution.provenOptimal,
    busiest: findBusiest(prepared, whilePlaying(prepared, solution.moves)),
    ...playability(findings),
    difficulty: gradePart({
      harp: 'pedal',
      score: prepared.score,
      secondsAt: prepared.secondsAt,
      changes: whilePlaying(prepared, solution.moves).map((move) => timeMove(prepared, move)),
      findings,
      omitted: prepared.options.omitted,
    }),
  };
};

/** Without the moves between two movements: they take no time from the music. */
export const whilePlaying = (
  { moments }: Pick<PreparedScore, 'moments'>,
  moves: readonly SolvedMove[],
): readonly SolvedMove[] => moves.filter(({ moment }) => moments.all[moment]!.pause === null);

const timeMove = ({ moments, options }: PreparedScore, { foot, moment, before, cost }: SolvedMove) => {
  const { bar, seconds } = moments.all[moment]!;
  return {
    side: foot,
    bar,
    seconds,
    atThePluck: before !== null && moments.ofNote(before.startNote) === moment,
    bendsString: bendsString(cost, options.weights),
    onlyAt: null,
  };
};

const findBusiest = ({ moments }: PreparedScore, moves: readonly SolvedMove[]): PlanSummary['busiest'] => {
  if (moves.length === 0) return null;
  const left = moves.filter((move) => move.foot === 'left').length;
  const foot = left * 2 >= moves.length ? 'left' : 'right';
  const byBar = group(
    moves.filter((move) => move.foot === foot),
    (move) => moments.all[move.moment]!.bar,
  );
  const [bar, here] = [...byBar].reduce((a, b) => (b[1].length > a[1].length ? b : a));
  return { foot, bar, movesInBar: here.length };
};
