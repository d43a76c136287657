import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { FEET } from '../../../../engine/harp/setting.ts';
import { buildFootTask, type FootPlan, planFoot } from '../../../../engine/pedals/course/foot.ts';
import { findFootSchedule } from '../../../../engine/pedals/course/foot-schedule.ts';
import { DEFAULT_PLAN_OPTIONS } from '../../../../engine/pedals/options.ts';
import { buildPedalProblem, prepareScore } from '../../../../engine/pedals/pedal-problem.ts';
import { changeNeeds } from '../../../../engine/sounding/changed-needs.ts';
import type { NeedsByLetter } from '../../../../engine/sounding/placed-needs.ts';
import { smallPart } from '../../../part-builder.ts';
import { cases } from '../../../thorough.ts';

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
      { numRuns: cases(80) },
    );
  });
});

describe('a foot that is planned again with other notes', () => {
  it('does what it does when planned afresh, also where most of the part is not gone through again', () => {
    const bar = fc.array(fc.constantFrom(...NOTES), { minLength: 4, maxLength: 4 });
    const other = fc.record({ at: fc.nat(), to: fc.constantFrom(...NOTES.slice(0, -1)) });
    const playOrder = fc.constantFrom('straight' as const, 'repeat' as const, 'jump' as const);
    const orders = {
      straight: [0, 1, 2, 3, 4, 5, 6, 7, 8],
      repeat: [0, 1, 2, 1, 2, 3, 4, 5, 6, 7, 8],
      jump: [0, 1, 2, 3, 4, 5, 6, 7, 0, 1, 8],
    };
    let rejoined = 0;
    fc.assert(
      fc.property(
        fc.array(bar, { minLength: 9, maxLength: 9 }),
        fc.array(other, { minLength: 1, maxLength: 4 }),
        playOrder,
        fc.constantFrom(60, 150, 300),
        (bars, changes, order, quartersPerMinute) => {
          const upper = bars.map((notes) => notes.map((note) => `${note}/1`).join(' ')).join(' | ');
          const score = smallPart({ upper, playOrder: orders[order], quartersPerMinute });
          const { needs, context } = buildPedalProblem(prepareScore(score, DEFAULT_PLAN_OPTIONS), new Map());
          for (const foot of ['left', 'right'] as const) {
            const first = planFoot(foot, needs, context);
            let [now, known] = [needs, first];
            for (const { at, to } of changes) {
              now = respell(now, at, to);
              known = planFoot(foot, now, context, known);
              expect(doneBy(known)).toEqual(doneBy(planFoot(foot, now, context)));
              rejoined += Number(known.tracedTask === first.tracedTask);
            }
          }
        },
      ),
      { numRuns: cases(25) },
    );
    expect(rejoined).toBeGreaterThan(cases(25));
  });

  /** One of the needs, on another string: whatever it sounds like. */
  const respell = (needs: NeedsByLetter, at: number, name: string): NeedsByLetter => {
    const all = [...needs.values()].flat();
    const chosen = all[at % Math.max(1, all.length)];
    if (chosen === undefined) return needs;
    const { letter, octave, position } = chosen.need;
    const to = smallPart({ upper: `${name}/1` }).notes[0]!.pitch;
    const from = { letter, octave, alter: position };
    return changeNeeds(needs, [{ kind: 'respell', note: chosen.need.note.id, from, to }]);
  };

  const doneBy = ({ initial, moves, unmet, provenOptimal }: FootPlan) => ({
    initial,
    moves,
    unmet,
    provenOptimal,
  });
});
