import type { LeverAt } from '../../harp/lever-name.ts';
import type { LeverOptions } from '../../levers/options.ts';
import { planLevers } from '../../levers/plan.ts';
import { lazy } from '../../memoize.ts';
import { type Rational, toNumber } from '../../music/rational.ts';
import { readLeverSigns } from '../../score/lever-signs.ts';
import type { Score } from '../../score/model/score.ts';
import { troubleKey } from './hands-in-time.ts';
import { listUneasyLevers } from './lever-comfort.ts';
import { type LeverGroup, listBeside, placeOfLeverFix } from './lever-edits.ts';
import { describeLeverProofFinding, listLeverProofFindings } from './lever-findings.ts';
import type { LeverTrials } from './lever-trials.ts';
import type { LeverFix, LeverProof } from './model.ts';
import { playLevers, tuningOfFile } from './play-levers.ts';
import { type LeverRepair, repairLevers } from './repair-levers.ts';
import type { StrayName } from './stated-levers.ts';
import type { StringPart } from './string-parts.ts';

/**
 * Proofreads the lever markings that a file holds, by playing the part as one would who knows nothing but these
 * markings, every pass of the repeats.
 *
 * Only notes with a lever are judged; what no lever gives is the plan's to tell. The strings are tuned as the option
 * says, else as the file does, else by the harp's custom where that gives every note, else as the plan has them.
 */
export const proofreadLevers = (part: Score, options: LeverOptions): LeverProof => {
  const score = readLeverSigns(part);
  if (score.leverWords.length === 0) return unmarked(score, options);
  const played = playLevers(score, options);
  const { tuning, stated, parts, trials } = played;
  const repair = repairLevers(played);
  const findings = listLeverProofFindings({
    score,
    tuning,
    stated,
    parts,
    troubles: trials.after([]).troubles,
    uneasy: listUneasyLevers(
      played,
      lazy(() => planLevers(score, { ...options, tuning, pins: [] })),
    ),
    fixesFor: assignLeverEdits(repair, trials, score),
    fixesForStray: (marking, name) => listFixesOfName(repair, marking, name),
    fixesForNeedless: assignRemovals(repair, trials, (marking, step) =>
      listBeside(stated, tuning, marking, step),
    ),
  });
  return {
    kind: 'lever',
    markings: score.leverWords.filter(({ says }) => says !== null).length,
    notesChecked: parts.reduce((sum, { played }) => sum + played.notesChecked, 0),
    tuning,
    findings,
    correct: findings.every(({ severity }) => severity === 'note'),
    repair: { edits: repair.edits, proven: repair.proven, faultsLeft: repair.faultsLeft },
  };
};

const unmarked = (score: Score, options: LeverOptions): LeverProof => ({
  kind: 'lever',
  markings: 0,
  notesChecked: 0,
  tuning: tuningOfFile(score, options),
  findings: [
    describeLeverProofFinding(
      score,
      'no-lever-markings',
      {},
      { place: 'start', fixes: [], advice: [{ kind: 'annotate-first', facts: {} }] },
    ),
  ],
  correct: false,
  repair: { edits: [], proven: true, faultsLeft: 0 },
});

/** The edits that concern a name which no lever gives, with what they depend on. */
const listFixesOfName = (
  { edits }: LeverRepair,
  marking: number,
  { letter, octave }: StrayName['name'],
): readonly LeverFix[] => {
  const concerns = (fix: LeverFix): boolean =>
    fix.kind !== 'add' &&
    fix.marking === marking &&
    fix.string.letter === letter &&
    fix.string.octave === (octave ?? fix.string.octave);
  return edits
    .filter(({ fixes }) => fixes.some(concerns))
    .flatMap((edit) => [...edit.fixes, ...edit.with.flatMap((index) => edits[index]!.fixes)]);
};

/** The edit that concerns a needless name; else its removal, if that does no harm, alone and beside all that is done. */
const assignRemovals = (
  { edits, groups }: LeverRepair,
  trials: LeverTrials,
  besideOf: (marking: number, step: number) => readonly LeverAt[] | null,
) => {
  const made: Pick<LeverGroup, 'views'>[] = [...groups];
  return ({ step, string }: StringPart, marking: number): readonly LeverFix[] => {
    const edit = groups.findIndex(({ views }) =>
      views.some(
        (view) => view.step === step && view.fixes.some((fix) => 'marking' in fix && fix.marking === marking),
      ),
    );
    if (edit >= 0)
      return [edit, ...edits[edit]!.with].sort((a, b) => a - b).flatMap((index) => edits[index]!.fixes);
    const { letter } = string;
    const removal: Pick<LeverGroup, 'views'> = {
      views: [{ step, fixes: [{ kind: 'remove', marking, letter }] }],
    };
    if (trials.firstAdded([removal]) !== null || trials.firstAdded([...made, removal]) !== null) return [];
    made.push(removal);
    return [{ kind: 'remove', marking: marking - 1, string, beside: besideOf(marking - 1, step) }];
  };
};

/** Edits near a fault that may belong to it. */
const MOST_LOOKED_AT = 6;

/** Sees which edits rid of some faults of a string, or of a trouble of the hands: the fewest, with what they depend on. */
const assignLeverEdits =
  ({ edits, groups }: LeverRepair, trials: LeverTrials, score: Score) =>
  (step: number, keys: readonly string[], at: Rational): readonly LeverFix[] => {
    const distance = (index: number): number =>
      Math.abs(placeOfLeverFix(edits[index]!.fixes[0], score) - toNumber(at));
    const leftBy = (chosen: ReadonlySet<number>): number => {
      const outcome = trials.after([...chosen].map((index) => groups[index]!));
      const wrong = new Set([...outcome.of(step).faults.keys(), ...outcome.troubles.map(troubleKey)]);
      return keys.filter((key) => wrong.has(key)).length;
    };
    const near = edits
      .map((_, index) => index)
      .filter((index) => groups[index]!.views.some((view) => view.step === step))
      .sort((a, b) => distance(a) - distance(b))
      .slice(0, MOST_LOOKED_AT);
    const chosen = new Set<number>();
    let left = leftBy(chosen);
    for (const index of near) {
      if (left === 0) break;
      const tried = new Set([...chosen, index, ...edits[index]!.with]);
      const after = leftBy(tried);
      if (after >= left) continue;
      for (const each of tried) chosen.add(each);
      left = after;
    }
    return [...chosen].sort((a, b) => a - b).flatMap((index) => edits[index]!.fixes);
  };
