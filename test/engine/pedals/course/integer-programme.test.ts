import { describe, expect, it } from 'vitest';
import { findFootCourse } from '../../../../engine/pedals/course/foot-course.ts';
import { solveByIntegerProgramme } from './integer-programme.ts';
import { randomTask } from './random-task.ts';

describe('a foot through a chromatic passage', () => {
  it.each([1, 2, 3, 4, 5, 6])(
    'costs what the integer programme costs (passage %i)',
    async (seed) => {
      const task = randomTask(40, seed);
      expect(findFootCourse(task).cost).toBe(await solveByIntegerProgramme(task));
    },
    60_000,
  );
});
