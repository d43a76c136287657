import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { FEET } from '../../../../engine/harp/setting.ts';
import { buildFootTask, planFoot } from '../../../../engine/pedals/course/foot.ts';
import { findFootSchedule } from '../../../../engine/pedals/course/foot-schedule.ts';
import { DEFAULT_PLAN_OPTIONS } from '../../../../engine/pedals/options.ts';
import { buildPedalProblem, prepareScore } from '../../../../engine/pedals/pedal-problem.ts';
import { smallPart } from '../../../part-builder.ts';

const NOTES = ['C4', 'C#4', 'Db4', 'D4', 'D#4', 'B3', 'Bb3', 'E4', 'F4', 'F#4', 'r'] as const;

describe('the cost of a foot’s moves', () => {
  it('is told as it was paid: the terms, the price of each move, and of the start make up the whole', () => {
    const bar = fc.array(fc.constantFrom(...NOTES), { minLength: 4, maxLength: 4 });
    const playOrder = fc.constantFrom([0, 1, 2], [0, 1, 0, 1, 2], [0, 1, 0, 2], [0, 1, 2, 0]);
    fc.assert(
      fc.property(
        fc.array(bar, { minLength: 3, maxLength: 3 }),
        playOrder,
        fc.constantFrom(60, 150, 300),
        (bars, order, quartersPerMinute) => {
          const upper = bars.map((notes) => notes.map((note) => `${note}/1`).join(' ')).join(' | ');
          const score = smallPart({ upper, playOrder: order, quartersPerMinute });
          const { needs, context } = buildPedalProblem(prepareScore(score, DEFAULT_PLAN_OPTIONS), new Map());
          for (const foot of ['left', 'right'] as const) {
            const { task } = buildFootTask(FEET[foot], needs, context);
            const { initial, moves } = planFoot(foot, needs, context);
            const start = FEET[foot].reduce(
              (sum, letter, pedal) => sum + task.priceAtStart(pedal, initial.get(letter)!),
              0,
            );
            const terms = moves.flatMap(({ cost }) => cost).reduce((sum, { amount }) => sum + amount, 0);
            expect(start + moves.length * task.perMove + terms).toBe(findFootSchedule(task).cost);
          }
        },
      ),
      { numRuns: 80 },
    );
  });
});
