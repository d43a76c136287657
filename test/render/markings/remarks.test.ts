import { describe, expect, it } from 'vitest';
import { planPedals } from '../../../engine/pedals/plan.ts';
import { completeEngraving, type EngravingChoice } from '../../../render/engraving-options.ts';
import { chooseMarkings, countUnprintedMoves } from '../../../render/markings/markings.ts';
import { printingRemarks } from '../../../render/remarks.ts';
import { leverPlanFor } from '../../lever-plan-builder.ts';
import { smallPart } from '../../part-builder.ts';

const SCORE = smallPart({ upper: 'C4/2 C#4/2 | C4/2 C#4/2 | C#4/4' });
const PLAN = planPedals(SCORE);

const remarksFor = (choice: EngravingChoice, reminders: readonly number[] = []) =>
  printingRemarks(SCORE, { kind: 'pedal', plan: PLAN }, completeEngraving(choice), reminders);

describe('moves that no marking tells of', () => {
  it('are counted where the settings alone are printed', () => {
    expect(PLAN.moves).toHaveLength(3);
    expect(chooseMarkings(SCORE, PLAN, completeEngraving({ density: 'settings' }))).toHaveLength(1);
    expect(remarksFor({ density: 'settings' })).toEqual([
      {
        code: 'moves-not-printed',
        barNumber: '',
        barName: '',
        message: '3 moves are not printed: you asked for full settings only.',
      },
    ]);
  });

  it.each(['changes', 'both'] as const)('are none where %s are printed', (density) => {
    expect(remarksFor({ density })).toEqual([]);
    expect(countUnprintedMoves(SCORE, PLAN, completeEngraving({ density }))).toBe(0);
  });

  it('are fewer where a setting stands at the very moment, such as at the start of a system', () => {
    const move = PLAN.moves.find(({ beat }) => beat.num === 1 && beat.den === 1)!;
    expect(move.bar).toBe(1);
    expect(remarksFor({ density: 'settings' }, [1])[0]?.message).toMatch(/^2 moves are not printed/);
  });

  it('are none on a lever harp, which has no settings to print', () => {
    const harp = leverPlanFor(SCORE, { moves: ['2.1 F#4'] });
    expect(printingRemarks(SCORE, harp, completeEngraving({ density: 'settings' }))).toEqual([]);
  });
});

describe('a lever change that is to be shown as a small note', () => {
  const score = smallPart({ upper: 'C4/2 C4/2 | C4/4 | C4/4 | C4/2 F#4/2' });
  const remarks = (moves: readonly string[], choice: EngravingChoice) =>
    printingRemarks(score, leverPlanFor(score, { moves }), completeEngraving(choice, 'lever'));

  it('is told by name where nothing begins at its moment, and the user is told where', () => {
    expect(remarks(['1.3 C#4', '2.2 A4', '3.3 A#4', '4.3 F#4'], { leverLook: 'notes' })).toEqual([
      {
        code: 'changes-by-name',
        barNumber: '',
        barName: '',
        message:
          'Lever changes at 2 moments are printed by name, because there is no note or rest for a small note to stand before (bars 2 and 3).',
      },
    ]);
  });

  it('needs no word where a note begins there, or where changes are printed by name anyway', () => {
    expect(remarks(['1.3 C#4', '4.3 F#4'], { leverLook: 'notes' })).toEqual([]);
    expect(remarks(['2.2 A4'], {})).toEqual([]);
  });
});
