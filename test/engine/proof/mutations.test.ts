import { describe, expect, it } from 'vitest';
import { planPedals } from '../../../engine/pedals/plan.ts';
import { proofreadScore } from '../../../engine/proof/proof.ts';
import { smallPart } from '../../part-builder.ts';
import { printPlan } from '../../printed-plan.ts';
import { cases } from '../../thorough.ts';
import { isAdviceElsewhere } from './advice.ts';
import { drawFrom, plantFaults } from './plant-faults.ts';

const PART = smallPart({
  upper:
    'C4/1 E4/1 G4/1 C5/1 | C#4/2 F#4/2 | Bb4/1 A4/1 G4/2 | r/4 | Eb5/2 D5/2 | C5/1 Bb4/1 Ab4/2 | E5/4 | B4/2 A4/2 | F#4/2 C#5/2 | D5/4',
  quartersPerMinute: 90,
  playOrder: [0, 1, 2, 3, 1, 2, 3, 4, 5, 6, 7, 8, 9],
});

/** Parts to spoil; the test over real scores does the same with many more. */
const RUNS = cases(120);

describe('markings with one to five faults planted in them', () => {
  it('are repaired to faultless ones by no more edits, in 99 of 100, with no advice elsewhere', () => {
    const plan = planPedals(PART);
    const whole = printPlan(PART, plan);
    expect(proofreadScore({ ...PART, markings: whole }).correct).toBe(true);
    const worse: string[] = [];
    for (let seed = 0; seed < RUNS; seed += 1) {
      const { markings, planted } = plantFaults(PART, whole, 1 + (seed % 5), drawFrom(seed));
      const { repair, findings } = proofreadScore({ ...PART, markings }, undefined, () => plan);
      const after = proofreadScore({ ...PART, markings: repair.markings }, undefined, () => plan);
      const isRepaired = after.correct && repair.faultsLeft === 0;
      if (!isRepaired || repair.edits.length > planted.length || isAdviceElsewhere(findings, repair))
        worse.push(`${seed}: ${planted.join(', ')}`);
    }
    expect(worse.length, worse.join('\n')).toBeLessThanOrEqual(RUNS / 100);
  });
});
