import type { PedalHarpProfile } from '../harp/profile.ts';
import { CONCERT_HARP } from '../harp/profiles/concert-harp.ts';
import { lazy } from '../memoize.ts';
import type { Plan } from '../pedals/model.ts';
import { DEFAULT_PLAN_OPTIONS } from '../pedals/options.ts';
import { planPedals } from '../pedals/plan.ts';
import { DEFAULT_WEIGHTS, type Weights } from '../pedals/weights.ts';
import type { Score } from '../score/model/score.ts';
import { createRivalSearch } from '../sounding/rival-needs.ts';
import { listUneasy, type UneasyMarking } from './comfort.ts';
import { describeProofFinding, listProofFindings, listUnreadFindings } from './findings.ts';
import { listContradictions } from './marking-faults.ts';
import type { MarkingPlayback } from './marking-playback.ts';
import type { Proof } from './model.ts';
import { listNeedless, type NeedlessMarking } from './needless.ts';
import { listPartEvents, placeMarkings } from './part-events.ts';
import { type MarksAt, playByMarkings } from './play-by-markings.ts';
import { assignEdits } from './repair/assign-edits.ts';
import { lettersOf } from './repair/edit-dependencies.ts';
import { type PartRepair, repairPart } from './repair/repair-part.ts';
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
  const plan = lazy(() => planOf({ ...score, markings: [] }));
  // What a glissando asks for is judged by the key alone: a marking may say otherwise.
  const rivalOf = createRivalSearch(
    needs.filter(({ kind }) => kind !== 'swept'),
    part.moments,
  );
  const trials = startTrials(score, part, performance, footRestSeconds, rivalOf, options.marksAt);
  const uneasyIn = (marked: Score, disputed: ReadonlySet<string>): readonly UneasyMarking[] => {
    if (options.marksAt !== 'foot') return [];
    const played = playByMarkings(marked, placeMarkings(marked, part));
    const tried = startTrials(marked, part, played, footRestSeconds, rivalOf, options.marksAt);
    return listUneasy(marked, part, needs, played.tasks, tried, disputed, plan);
  };
  const repair = repairPart({
    score,
    part,
    needs,
    trials,
    plan,
    listUneasy: (marked) => uneasyIn(marked, new Set()),
  });
  const { edits, markings, proven, faultsLeft } = repair;
  const needless = listNeedless(score, performance, contradictions, repair, trials);
  const editsFor = assignEdits(repair, score, trials);
  const findings = listProofFindings({
    score,
    performance,
    late,
    contradictions,
    needless,
    uneasy: uneasyIn(score, listDisputed(score, needless, performance, edits)),
    editsFor,
    additions: edits.flatMap(({ fixes }) => fixes).filter(({ kind }) => kind === 'add'),
    hasGivenUp: trials.isExhausted(),
    rivalOf,
  });
  return {
    kind: 'pedal',
    markings: score.markings.length,
    notesChecked: performance.notesChecked,
    findings,
    correct: findings.every((finding) => finding.severity === 'note'),
    repair: { edits, markings, proven, faultsLeft },
  };
};

/** Statements that are told of for another reason, as marking and letter. */
const listDisputed = (
  score: Score,
  needless: readonly NeedlessMarking[],
  { failures }: MarkingPlayback,
  edits: PartRepair['edits'],
): ReadonlySet<string> =>
  new Set([
    ...[...needless, ...failures].map(({ marking, letter }) => `${marking} ${letter}`),
    ...edits.flatMap(({ fixes }) =>
      fixes.flatMap((fix) =>
        'marking' in fix ? lettersOf(fix, score).map((letter) => `${fix.marking} ${letter}`) : [],
      ),
    ),
  ]);

const unmarked = (score: Score): Proof => ({
  kind: 'pedal',
  markings: 0,
  notesChecked: 0,
  findings: [
    describeProofFinding(
      score,
      'no-markings',
      {},
      { place: 'start', fixes: [], advice: [{ kind: 'annotate-first', facts: {} }] },
    ),
    ...listUnreadFindings(score),
  ],
  correct: false,
  repair: { edits: [], markings: [], proven: true, faultsLeft: 0 },
});
