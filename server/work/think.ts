import { findGlissandi } from '../../engine/glissando/settings.ts';
import { readWantedSound } from '../../engine/glissando/wanted-sound.ts';
import { parseSetting, type Setting } from '../../engine/harp/setting.ts';
import { pedalOptionsFor } from '../../engine/pedals/options.ts';
import { ok, type Result } from '../../engine/problem.ts';
import { proofScore } from '../../engine/proof/proof.ts';
import { openScore } from '../../engine/score/open.ts';
import { type GlissandoChoice, type GlissandoReport, reportGlissandi } from '../api/glissandi.ts';
import type { LeverPlanReport } from '../api/lever-report.ts';
import type { PlanChoice, ProofChoice } from '../api/options.ts';
import type { ProofReport } from '../api/proof-report.ts';
import type { PlanReport } from '../api/report.ts';
import { reportPlannedScore } from '../report.ts';
import { reportProof } from '../report-proof.ts';
import { decline, type Outcome } from '../service-problem.ts';
import { harpFor, partOf, planScore } from './plan-score.ts';
import type { StageClock } from './stage-clock.ts';

/** The plan of a score, without drawing anything. */
export const thinkPlan = (
  bytes: Uint8Array,
  choice: PlanChoice,
  clock: StageClock,
): Outcome<PlanReport | LeverPlanReport> => {
  const planned = planScore(bytes, choice, clock);
  return planned.ok
    ? { ok: true, value: reportPlannedScore(planned.value.score, planned.value.plan) }
    : planned;
};

/** What the markings in a file lead to, ours included. */
export const thinkProof = (
  bytes: Uint8Array,
  choice: ProofChoice,
  clock: StageClock,
): Outcome<ProofReport> => {
  clock.begin('read', null);
  const opened = openScore(bytes, partOf(choice));
  if (!opened.ok) return opened;
  const score = opened.value;
  clock.begin('plan', score.bars.length);
  const { profile } = harpFor(choice, score);
  if (profile.kind === 'lever') {
    return decline({
      code: 'unsupported',
      feature: `Proofreading a part for the ${profile.name}`,
      advice: 'Only pedal markings are proofread: name a pedal harp with instrument, or ask for a plan.',
    });
  }
  const { weights } = pedalOptionsFor(choice);
  const proof = proofScore(score, { profile, weights });
  return { ok: true, value: reportProof(score, proof) };
};

/** Settings for a glissando. @returns `bad-option` where the sound or the setting before cannot be read */
export const thinkGlissandi = ({ sound, from }: GlissandoChoice): Outcome<GlissandoReport> => {
  const wanted = readWantedSound(sound);
  if (!wanted.ok) {
    return decline({
      code: 'bad-option',
      option: 'sound',
      value: sound,
      expected: 'it is a chord, a scale or note names',
    });
  }
  const before: Result<Setting | null> = from === undefined ? ok(null) : parseSetting(from);
  if (!before.ok) {
    const expected = 'it is seven note names such as D C# Bb | E F# G Ab';
    return decline({ code: 'bad-option', option: 'from', value: from ?? '', expected });
  }
  const { name, pitchClasses } = wanted.value;
  return { ok: true, value: reportGlissandi(name, pitchClasses, findGlissandi(wanted.value, before.value)) };
};
