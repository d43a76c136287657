import type { PedalHarpProfile } from '../harp/profile.ts';
import { CONCERT_HARP } from '../harp/profiles/concert-harp.ts';
import type { Plan } from '../pedals/model.ts';
import { DEFAULT_PLAN_OPTIONS } from '../pedals/options.ts';
import { planPedals } from '../pedals/plan.ts';
import { DEFAULT_WEIGHTS, type Weights } from '../pedals/weights.ts';
import type { Score } from '../score/model.ts';
import { describeProofFinding, listProofFindings } from './findings.ts';
import { createFixFinder } from './fix-finder.ts';
import { listContradictions } from './marking-faults.ts';
import type { Proof } from './model.ts';
import { listPartEvents, placeMarkings } from './part-events.ts';
import { type MarksAt, playByMarkings } from './play-by-markings.ts';
import { findLateChanges, startTrials } from './trials.ts';

export interface ProofOptions {
  readonly profile: PedalHarpProfile;
  readonly weights: Pick<Weights, 'footRestSeconds'>;
  readonly marksAt: MarksAt;
}

export const DEFAULT_PROOF_OPTIONS: ProofOptions = {
  profile: CONCERT_HARP,
  weights: DEFAULT_WEIGHTS,
  marksAt: 'foot',
};

/**
 * Proofreads the pedal markings that a file holds, by playing the part as one would who knows nothing but these
 * markings, every pass of the repeats.
 *
 * Only notes with a pedal are judged: what no pedal gives (out of range, microtones, strings without discs) is the
 * plan's to tell. Linear in the bars played, apart from the plan.
 *
 * @param planOf makes the plan for the notes alone, by which places for better markings are found; called once, and
 * only where there is something to fix
 */
export const proofreadScore = (
  score: Score,
  options: ProofOptions = DEFAULT_PROOF_OPTIONS,
  planOf: (unmarked: Score) => Plan = (unmarked) => planPedals(unmarked, DEFAULT_PLAN_OPTIONS),
): Proof => {
  if (score.markings.length === 0) return unmarked(score);
  const part = listPartEvents(score, options.profile);
  const performance = playByMarkings(score, placeMarkings(score, part), options.marksAt);
  const { footRestSeconds } = options.weights;
  const late = findLateChanges(performance.tasks, footRestSeconds);
  const contradictions = listContradictions(score);
  const needs = part.bars.flatMap((bar) =>
    bar.onsets.flatMap((onset) => [...onset.graces, ...onset.notes].map((timed) => timed.need)),
  );
  let planned: Plan | null = null;
  const plan = (): Plan => {
    planned ??= planOf({ ...score, markings: [] });
    return planned;
  };
  const trials = startTrials(score, part, performance, footRestSeconds, options.marksAt);
  const fixFinder = createFixFinder({
    score,
    needs,
    moments: part.moments,
    performance,
    contradictions,
    trials,
    plan,
  });
  const findings = listProofFindings({ score, performance, late, contradictions, fixFinder: fixFinder });
  return {
    markings: score.markings.length,
    notesChecked: performance.notesChecked,
    findings,
    correct: findings.every((finding) => finding.severity === 'note'),
  };
};

const unmarked = (score: Score): Proof => ({
  markings: 0,
  notesChecked: 0,
  findings: [describeProofFinding(score, 'no-markings', {}, { fixes: [], also: 'Annotate the part first.' })],
  correct: false,
});
