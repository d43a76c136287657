import type { Position } from '../../harp/setting.ts';
import { perObject } from '../../memoize.ts';
import type { PlayGraph } from '../../time/play-graph.ts';
import type { FootTask } from './foot-changes.ts';
import { singlePedalTask } from './foot-lower-bound.ts';
import { findFootSchedule } from './foot-schedule.ts';

/** The number of moves that would do if the foot needed no time, whatever the weights: no course has fewer. */
export const fewestMovesIn = (task: FootTask): number => {
  const counting = { ...task, perMove: 1, priceAt: () => 0, priceAtStart: () => 0, restoring: 0 };
  return task.choices.reduce(
    (sum, choices, pedal) =>
      sum +
      movesKnownOf(choices)(task.graph)(() =>
        isReadStraight(task.graph)
          ? countChanges(choices)
          : findFootSchedule(singlePedalTask(counting, pedal)).moves.length,
      ),
    0,
  );
};

/** The number of moves of one pedal, which its choices alone decide. */
const movesKnownOf = perObject((_choices: FootTask['choices'][number]) =>
  perObject((_graph: PlayGraph) => {
    let known: number | null = null;
    return (count: () => number): number => {
      known ??= count();
      return known;
    };
  }),
);

/** Whether each moment follows the one before it, and nothing else does. */
const isReadStraight = perObject((graph: PlayGraph) =>
  graph.into.every((edges, moment) =>
    moment === 0 ? edges.length === 0 : edges.length === 1 && edges[0]!.from === moment - 1,
  ),
);

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
