import { DEFAULT_LEVER_OPTIONS, type LeverOptions } from '../engine/levers/options.ts';
import { planLevers } from '../engine/levers/plan.ts';
import type { LeverProof } from '../engine/proof/levers/model.ts';
import { proofreadLevers } from '../engine/proof/levers/proofread-levers.ts';
import type { Score } from '../engine/score/model/score.ts';
import { openScore } from '../engine/score/open.ts';
import { completeEngraving, type EngravingChoice } from '../render/engraving-options.ts';
import { chooseLeverMarkings } from '../render/levers/lever-markings.ts';
import { annotateSource } from '../render/source/annotate-source.ts';

/** A score with its lever plan written into its file, read back; null where the plan itself leaves something undone. */
export const annotatedForLevers = (
  score: Score,
  options: LeverOptions = DEFAULT_LEVER_OPTIONS,
  choice: EngravingChoice = {},
): Score | null => {
  const plan = planLevers(score, options);
  const isWhole = plan.findings.every(({ severity }) => severity !== 'stop');
  if (!isWhole || plan.moves.some(({ graceNote }) => graceNote !== null)) return null;
  const engraving = completeEngraving(choice);
  const printed = chooseLeverMarkings(score, plan, options.profile, engraving);
  const written = annotateSource(score, printed, { others: 'replace', marksAt: engraving.marksAt });
  if (!written.ok) throw new Error(written.problem.code);
  const again = openScore(new TextEncoder().encode(written.value.text), { part: score.harp.partIds[0]! });
  if (!again.ok) throw new Error(again.problem.code);
  return again.value;
};

/** What proofreading finds in what was written for a lever harp. */
export const leverAlarms = (
  score: Score,
  choice: EngravingChoice = {},
): readonly LeverProof['findings'][number][] => {
  const again = annotatedForLevers(score, DEFAULT_LEVER_OPTIONS, choice);
  return again === null ? [] : proofreadLevers(again, DEFAULT_LEVER_OPTIONS).findings;
};
