import { describe, expect, it } from 'vitest';
import { findFootSchedule } from '../../../../engine/pedals/course/foot-schedule.ts';
import { DEFAULT_WEIGHTS } from '../../../../engine/pedals/weights.ts';
import { solveByIntegerProgramme } from './integer-programme.ts';
import { randomTask } from './random-task.ts';

const { footTooBusy, move } = DEFAULT_WEIGHTS;

describe('a foot through a chromatic passage', () => {
  it.each([2, 3, 4, 6])(
    'makes the fewest moves without time, then the fewest moves, then the most comfortable (passage %i)',
    async (seed) => {
      const task = randomTask(24, seed);
      const best = await solveByIntegerProgramme(task);
      const { cost, moves } = findFootSchedule(task);
      expect(moves.filter(({ manner }) => manner === 'too-soon').length).toBe(best.tooSoon);
      expect(moves.length).toBe(best.moves);
      expect(cost - footTooBusy * best.tooSoon - move * best.moves).toBeCloseTo(best.comfort, 2);
    },
    120_000,
  );
});
