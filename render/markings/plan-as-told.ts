import {
  beatAt,
  buildClock,
  compare,
  equals,
  isInPause,
  type Move,
  type Plan,
  placeAsTold,
  recountChanges,
  type Score,
} from '../../engine/index.ts';
import { groupMoves, type PlaceOptions } from './places-to-mark.ts';

/**
 * The plan with each move where its marking stands, in its order: moves of a silence that are told together, in a setting
 * or under a joined rest, are made there. What was paid for their own moments is theirs no more. Passages have
 * as many changes as are told in them; how hard they are, the plan says.
 */
export const planAsTold = (score: Score, plan: Plan, options: PlaceOptions): Plan => {
  const told = new Map<Move, Move>();
  for (const { at, bar, moves } of groupMoves(score, plan, options).groups) {
    const beat = beatAt(score.bars[bar]!, at);
    for (const move of moves)
      if (!equals(move.at, at)) told.set(move, { ...move, at, bar, beat, graceNote: null, cost: [] });
  }
  const moves = plan.moves.map((move) => told.get(move) ?? move).sort(inOrder);
  return { ...plan, moves, summary: { ...plan.summary, difficulty: recountTold(score, plan, moves) } };
};

const recountTold = (score: Score, { summary }: Plan, moves: readonly Move[]) => {
  const secondsAt = buildClock(score.tempo);
  const changes = placeAsTold(score, moves)
    .filter((move) => !isInPause(score, move))
    .map(({ at, bar }) => ({ bar, seconds: secondsAt(at), onlyAt: null }));
  return recountChanges(summary.difficulty, changes, { harp: 'pedal', score, secondsAt });
};

/** At one moment the left foot's move before the right foot's. */
const inOrder = (a: Move, b: Move): number =>
  compare(a.at, b.at) ||
  Number(a.graceNote === null) - Number(b.graceNote === null) ||
  Number(a.foot === 'right') - Number(b.foot === 'right');
