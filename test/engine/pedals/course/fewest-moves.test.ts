import { expect, it } from 'vitest';
import { fewestMovesIn } from '../../../../engine/pedals/course/fewest-moves.ts';
import { singlePedalTask } from '../../../../engine/pedals/course/foot-lower-bound.ts';
import { findFootSchedule } from '../../../../engine/pedals/course/foot-schedule.ts';
import { randomTask } from './random-task.ts';

it('the fewest moves of a part that is read straight through are those of the courses that count nothing else', () => {
  for (let seed = 1; seed <= 40; seed += 1) {
    const task = randomTask(60, seed);
    const counting = { ...task, perMove: 1, priceAt: () => 0 };
    const moves = task.choices.map((_, pedal) => findFootSchedule(singlePedalTask(counting, pedal)).cost);
    expect(fewestMovesIn(task)).toBe(moves.reduce((a, b) => a + b));
  }
});
