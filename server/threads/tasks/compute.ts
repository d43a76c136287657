import {
  findGlissandi,
  fixesOf,
  type HarpProfile,
  type LeverProof,
  leverOptionsFor,
  type Proof,
  pedalOptionsFor,
  proofreadLevers,
  proofreadScore,
  readLeverSigns,
  type Score,
} from '../../../engine/index.ts';
import type { ProofPages, ProofTelling } from '../../../render/index.ts';
import { ENGRAVING_CATALOGUE, ownMarksAt, type SourceKind } from '../../../render/pure.ts';
import { type GlissandoChoice, type GlissandoReport, reportGlissandi } from '../../api/answers/glissandi.ts';
import type { LeverPlanReport } from '../../api/answers/lever-report.ts';
import type { ProofReport } from '../../api/answers/proof-report.ts';
import type { PlanReport } from '../../api/answers/report.ts';
import { checkHarpOptions } from '../../api/requests/harp-options.ts';
import type { PlanChoice, ProofChoice } from '../../api/requests/options.ts';
import { reportPlannedScore } from '../../reports/report.ts';
import { reportProof } from '../../reports/report-proof.ts';
import { fail, type Outcome } from '../../service-problem.ts';
import type { ScoreFile } from '../job.ts';
import { atSavedTimes, harpFor, openFile, planScore } from './plan-score.ts';
import { proofLook } from './proof-look.ts';
import { readSettingOption, readSoundOption } from './settings/explore-setting.ts';
import { type SourceFile, writeSourceFile } from './source-file.ts';
import type { StageClock } from './stage-clock.ts';
import { tryDrawing } from './try-drawing.ts';

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

/** What the markings in a file lead to. */
export interface Proofread {
  readonly report: ProofReport;
  readonly title: string;
  /** The file with its markings corrected; null where it is not asked for. */
  readonly repaired: SourceFile | null;
  /** The part with its faults and edits on its pages; null where none are asked for. */
  readonly drawn: ProofPages | null;
}

/** What is wanted besides the report. */
export type ProofExtra =
  | { readonly kind: 'report' }
  | { readonly kind: 'pdf' | 'svg' }
  | { readonly kind: 'source'; readonly kinds: readonly SourceKind[] };

/** What the markings in a file lead to, ours included; with the corrected file or pages, where asked for. */
export const computeProof = async (
  file: ScoreFile,
  choice: ProofChoice,
  clock: StageClock,
  extra: ProofExtra = { kind: 'report' },
): Promise<Outcome<Proofread>> => {
  clock.begin('read', null);
  const opened = await openFile(file, choice);
  if (!opened.ok) return opened;
  const { profile } = harpFor(choice, opened.value);
  const score = atSavedTimes(profile.kind === 'lever' ? readLeverSigns(opened.value) : opened.value);
  clock.begin('plan', score.bars.length);
  const concerned = checkHarpOptions(choice, profile);
  if (!concerned.ok) return concerned;
  const proof = proofreadPart(score, profile, choice);
  const report = reportProof(score, proof, await tellingOf(choice));
  const proofread = { report, title: score.titles.title, repaired: null, drawn: null };
  switch (extra.kind) {
    case 'report':
      return { ok: true, value: proofread };
    case 'source': {
      const repaired = await writeRepaired(score, proof, choice, file.bytes, extra.kinds);
      return repaired.ok ? { ok: true, value: { ...proofread, repaired: repaired.value } } : repaired;
    }
    default: {
      clock.begin('engrave', score.bars.length);
      const drawn = await drawPages(score, proof, choice, extra.kind);
      return drawn.ok ? { ok: true, value: { ...proofread, drawn: drawn.value } } : drawn;
    }
  }
};

const proofreadPart = (score: Score, profile: HarpProfile, choice: ProofChoice): Proof | LeverProof => {
  if (profile.kind === 'lever') return proofreadLevers(score, { ...leverOptionsFor(choice), profile });
  const { weights } = pedalOptionsFor(choice);
  const marksAt = choice.marksAt ?? ownMarksAt(score) ?? DEFAULT_MARKS_AT;
  return proofreadScore(score, { profile, weights, marksAt });
};

// The renderer is loaded only where a file or pages are to be written.
const loadRenderer = () => import('../../../render/index.ts');

/** The words of a report; null where they are the engine’s own. */
const tellingOf = async (choice: ProofChoice): Promise<ProofTelling | null> => {
  if (choice.language === undefined && choice.naming === undefined) return null;
  const { completeEngraving, proofTelling } = await loadRenderer();
  return proofTelling(completeEngraving(proofLook(choice)));
};

/** Which edits to make, by their indices: all of them where none are named. */
const chosenEdits = (
  { repair: { edits } }: Proof | LeverProof,
  choice: ProofChoice,
): Outcome<readonly number[]> => {
  if (choice.edits === undefined) return { ok: true, value: [...edits.keys()] };
  const chosen = choice.edits === '' ? [] : choice.edits.split(',').map(Number);
  if (chosen.every((index) => index < edits.length)) return { ok: true, value: chosen };
  const expected =
    edits.length === 0 ? 'the repair has no edits' : `the repair has edits 0 to ${edits.length - 1}`;
  return fail({ code: 'bad-option', option: 'edits', value: choice.edits, expected });
};

const writeRepaired = async (
  score: Score,
  proof: Proof | LeverProof,
  choice: ProofChoice,
  original: Uint8Array,
  kinds: readonly SourceKind[],
): Promise<Outcome<SourceFile>> => {
  const chosen = chosenEdits(proof, choice);
  if (!chosen.ok) return chosen;
  const { repairSource, repairLeverSource } = await loadRenderer();
  const source =
    proof.kind === 'pedal'
      ? repairSource(score, fixesOf(proof.repair.edits, chosen.value))
      : repairLeverSource(score, fixesOf(proof.repair.edits, chosen.value));
  return source.ok ? writeSourceFile(score, original, source.value.bytes, kinds) : source;
};

const drawPages = async (
  score: Score,
  proof: Proof | LeverProof,
  choice: ProofChoice,
  form: 'pdf' | 'svg',
): Promise<Outcome<ProofPages>> => {
  const { drawProof } = await loadRenderer();
  return tryDrawing(() => drawProof(score, proof, proofLook(choice), form));
};

/** Settings for a glissando. @returns `bad-option` where the sound or the setting before cannot be read */
export const computeGlissandi = ({ sound, from }: GlissandoChoice): Outcome<GlissandoReport> => {
  const wanted = readSoundOption(sound);
  if (!wanted.ok) return wanted;
  const before = from === undefined ? ({ ok: true, value: null } as const) : readSettingOption('from', from);
  if (!before.ok) return before;
  return { ok: true, value: reportGlissandi(wanted.value, findGlissandi(wanted.value.sounds, before.value)) };
};
