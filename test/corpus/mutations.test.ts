import { describe, expect, it } from 'vitest';
import { planPedals } from '../../engine/pedals/plan.ts';
import type { ProofFinding } from '../../engine/proof/model.ts';
import { proofreadScore } from '../../engine/proof/proof.ts';
import { openScore } from '../../engine/score/open.ts';
import { isAdviceElsewhere } from '../engine/proof/advice.ts';
import { drawFrom, plantFaults } from '../engine/proof/plant-faults.ts';
import { printPlan } from '../printed-plan.ts';
import { isThorough } from '../thorough.ts';
import { hasScores, readScoreFile, SMALLER_HARP_SCORES } from './harp-scores.ts';

/** Times that each score is spoilt: with TRINGLE_THOROUGH=1 many more. */
const RUNS = isThorough ? 20 : 1;

const countFaults = (findings: readonly ProofFinding[]): number =>
  findings.filter(({ severity }) => severity !== 'note').length;

/** What went wrong when a score was spoilt and repaired. A part that no markings can serve keeps what is its own. */
const failuresOf = (
  { file, part }: (typeof SMALLER_HARP_SCORES)[number],
  first: number,
): readonly string[] => {
  const opened = openScore(readScoreFile(file), part === undefined ? {} : { part });
  if (!opened.ok) throw new Error(file);
  const score = { ...opened.value, markings: [], unreadWords: [] };
  const plan = planPedals(score);
  const whole = printPlan(score, plan);
  const own = proofreadScore({ ...score, markings: whole }, undefined, () => plan);
  return Array.from({ length: RUNS }, (_, run) => first + run).flatMap((seed) => {
    const { markings, planted } = plantFaults(score, whole, 1 + (seed % 5), drawFrom(seed));
    const { repair, findings } = proofreadScore({ ...score, markings }, undefined, () => plan);
    const after = proofreadScore({ ...score, markings: repair.markings }, undefined, () => plan);
    const isRepaired =
      countFaults(after.findings) <= countFaults(own.findings) &&
      repair.edits.length <= planted.length + own.repair.edits.length &&
      !isAdviceElsewhere(findings, repair);
    return isRepaired ? [] : [`${file} ${seed}: ${planted.join(', ')}`];
  });
};

describe.skipIf(!hasScores)('real scores with one to five faults planted in their markings', () => {
  it('are repaired to faultless ones by no more edits, in 99 of 100', { timeout: RUNS * 300_000 }, () => {
    const failures = SMALLER_HARP_SCORES.flatMap((score, index) => failuresOf(score, index * 1000));
    const cases = SMALLER_HARP_SCORES.length * RUNS;
    expect(failures.length, failures.join('\n')).toBeLessThanOrEqual(cases / 100);
  });
});
