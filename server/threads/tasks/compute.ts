import { findGlissandi, pedalOptionsFor, proofreadScore } from '../../../engine/index.ts';
import type { ProofPages } from '../../../render/index.ts';
import { ENGRAVING_CATALOGUE, ownMarksAt, SOURCE_TYPES } from '../../../render/pure.ts';
import { type GlissandoChoice, type GlissandoReport, reportGlissandi } from '../../api/answers/glissandi.ts';
import type { LeverPlanReport } from '../../api/answers/lever-report.ts';
import type { ProofReport } from '../../api/answers/proof-report.ts';
import type { PlanReport } from '../../api/answers/report.ts';
import type { PlanChoice, ProofChoice } from '../../api/requests/options.ts';
import { reportPlannedScore } from '../../reports/report.ts';
import { reportProof } from '../../reports/report-proof.ts';
import { fail, type Outcome } from '../../service-problem.ts';
import type { ScoreFile } from '../job.ts';
import { readSettingOption, readSoundOption } from './explore-setting.ts';
import { harpFor, openFile, planScore } from './plan-score.ts';
import { type SourceFile, writeSourceFile } from './source-file.ts';
import type { StageClock } from './stage-clock.ts';

/** The plan of a score, without drawing anything. */
export const computePlan = async (
  file: ScoreFile,
  choice: PlanChoice,
  clock: StageClock,
): Promise<Outcome<PlanReport | LeverPlanReport>> => {
  const planned = await planScore(file, choice, clock);
  return planned.ok
    ? { ok: true, value: reportPlannedScore(planned.value.score, planned.value.plan) }
    : planned;
};

const DEFAULT_MARKS_AT = ENGRAVING_CATALOGUE.marksAt.default;

/** What the markings in a file lead to, and the file with them corrected where that is wanted. */
export interface Proofread {
  readonly report: ProofReport;
  readonly title: string;
  /** Null where no repair is asked for. */
  readonly repaired: SourceFile | null;
  /** The part with its faults and edits on its pages; null where none are asked for. */
  readonly drawn: ProofPages | null;
}

/** What the markings in a file lead to, ours included; with the file that has them corrected, where asked for. */
export const computeProof = async (
  file: ScoreFile,
  choice: ProofChoice,
  clock: StageClock,
  pages: 'pdf' | 'svg' | null = null,
): Promise<Outcome<Proofread>> => {
  clock.begin('read', null);
  const opened = await openFile(file, choice);
  if (!opened.ok) return opened;
  const score = opened.value;
  clock.begin('plan', score.bars.length);
  const { profile } = harpFor(choice, score);
  if (profile.kind === 'lever') {
    return fail({
      code: 'unsupported',
      feature: `Proofreading a part for the ${profile.name}`,
      advice:
        'Only pedal markings can be proofread. Choose a pedal harp with the option instrument, or ask for a plan.',
    });
  }
  const { weights } = pedalOptionsFor(choice);
  const marksAt = choice.marksAt ?? ownMarksAt(score) ?? DEFAULT_MARKS_AT;
  const proof = proofreadScore(score, { profile, weights, marksAt });
  const report = reportProof(score, proof);
  const { title } = score.titles;
  if (choice.repair !== true && pages === null)
    return { ok: true, value: { report, title, repaired: null, drawn: null } };
  // The renderer is loaded only where a file is to be written.
  const { drawProof, repairSource } = await import('../../../render/index.ts');
  if (pages !== null) {
    const drawn = await drawProof(score, proof, {}, pages);
    return drawn.ok ? { ok: true, value: { report, title, repaired: null, drawn: drawn.value } } : drawn;
  }
  const source = repairSource(
    score,
    proof.repair.edits.flatMap(({ fixes }) => fixes),
  );
  if (!source.ok) return source;
  const kinds = Object.keys(SOURCE_TYPES) as (keyof typeof SOURCE_TYPES)[];
  const repaired = writeSourceFile(score, file.bytes, source.value.bytes, kinds);
  return repaired.ok
    ? { ok: true, value: { report, title, repaired: repaired.value, drawn: null } }
    : repaired;
};

/** Settings for a glissando. @returns `bad-option` where the sound or the setting before cannot be read */
export const computeGlissandi = ({ sound, from }: GlissandoChoice): Outcome<GlissandoReport> => {
  const wanted = readSoundOption(sound);
  if (!wanted.ok) return wanted;
  const before = from === undefined ? ({ ok: true, value: null } as const) : readSettingOption('from', from);
  if (!before.ok) return before;
  return { ok: true, value: reportGlissandi(wanted.value, findGlissandi(wanted.value, before.value)) };
};
