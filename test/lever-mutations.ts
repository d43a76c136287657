import { DEFAULT_LEVER_OPTIONS } from '../engine/levers/options.ts';
import { fixesOf } from '../engine/proof/choose-edits.ts';
import type { LeverProof } from '../engine/proof/levers/model.ts';
import { proofreadLevers } from '../engine/proof/levers/proofread-levers.ts';
import type { Score } from '../engine/score/model/score.ts';
import { openScore } from '../engine/score/open.ts';
import { repairLeverSource } from '../render/source/repair-lever-source.ts';
import { drawFrom } from './engine/proof/plant-faults.ts';
import { plantLeverFaults } from './spoilt-levers.ts';

/** Writes some edits of a repair into the file of a score, all of them where none are named, and reads that. */
export const writeEdits = (
  score: Score,
  edits: LeverProof['repair']['edits'],
  chosen: Iterable<number> = edits.keys(),
): Score => {
  const written = repairLeverSource(score, fixesOf(edits, chosen));
  if (!written.ok) throw new Error(written.problem.code);
  const opened = openScore(written.value.bytes);
  if (!opened.ok) throw new Error(opened.problem.code);
  return opened.value;
};

/** Proofreads a score, writes the whole repair into its file, and reads that. */
export const repairInFile = (score: Score): Score =>
  writeEdits(score, proofreadLevers(score, DEFAULT_LEVER_OPTIONS).repair.edits);

/** What was not repaired by as few edits as faults were planted, when a score is spoilt with some seeds. */
export const leverRepairFailures = (
  score: Score,
  seeds: readonly number[],
  name: string,
): readonly string[] =>
  seeds.flatMap((seed) => {
    const { score: spoilt, planted } = plantLeverFaults(score, 1 + (seed % 3), drawFrom(seed));
    const { repair } = proofreadLevers(spoilt, DEFAULT_LEVER_OPTIONS);
    const after = proofreadLevers(writeEdits(spoilt, repair.edits), DEFAULT_LEVER_OPTIONS);
    const told = after.findings.filter(({ severity }) => severity !== 'note').map(({ sentence }) => sentence);
    const isRepaired = after.correct && repair.faultsLeft === 0 && repair.edits.length <= planted.length;
    return isRepaired
      ? []
      : [`${name} ${seed}: ${planted.join(', ')}; ${repair.edits.length} edits; ${told.join(' ')}`];
  });
