import type { Position } from '../../harp/setting.ts';
import { perObject } from '../../memoize.ts';
import { type PlayGraph, stepsReadStraight } from '../../time/play-graph.ts';
import type { FootTask } from './foot-changes.ts';
import { singlePedalTask } from './foot-lower-bound.ts';
import { findFootSchedule } from './foot-schedule.ts';

/** The number of moves that would do if the foot needed no time, whatever the weights: no course has fewer. */
export const fewestMovesIn = (task: FootTask): number => {
  const counting = { ...task, perMove: 1, priceAt: () => 0, priceAtStart: () => 0, restoring: 0 };
  return task.choices.reduce(
    (sum, choices, pedal) =>
      sum +
      movesKnownOf(choices)(task.graph, () =>
        stepsReadStraight(task.graph) !== null
          ? countChanges(choices)
          : findFootSchedule(singlePedalTask(counting, pedal)).moves.length,
      ),
    0,
  );
};

/** The number of moves of one pedal, which its choices and the order of moments alone decide. */
const movesKnownOf = perObject((_choices: FootTask['choices'][number]) => {
  let known: { readonly graph: PlayGraph; readonly moves: number } | null = null;
  return (graph: PlayGraph, count: () => number): number => {
    if (known?.graph !== graph) known = { graph, moves: count() };
    return known.moves;
  };
});

/** How often a pedal has to move at least: it stays as long as some position serves every moment since its last move. */
const countChanges = (choices: readonly (readonly Position[])[]): number => {
  let [changes, serving] = [0, choices[0] ?? []];
  for (const here of choices) {
    if (here === serving) continue;
    const still = serving.filter((position) => here.includes(position));
    if (still.length === 0) changes += 1;
    serving = still.length === 0 ? here : still;
  }
  return changes;
};
