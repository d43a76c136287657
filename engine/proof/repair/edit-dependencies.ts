import type { Letter } from '../../music/pitch.ts';
import { toNumber } from '../../music/rational.ts';
import type { Score } from '../../score/model/score.ts';
import type { MarkingFix } from '../model.ts';
import { addedFaults, type TrialOutcome, type Trials } from '../trials.ts';

type Group = readonly MarkingFix[];

/** What comes of some edits that are made together. */
export interface EditSet {
  /** Indices of the edits, in order. */
  readonly edits: readonly number[];
  readonly outcome: TrialOutcome | null;
}

/**
 * For each edit those that must be made with it: together they leave no fault that was not there before.
 *
 * One after the other is taken along that is nearest to what would go wrong, and proved by playing the part. All edits
 * together leave no new fault, so that this ends. Where too much has been tried, it is all of them.
 */
export const findDependencies = (
  score: Score,
  groups: readonly Group[],
  trials: Trials,
): readonly EditSet[] => {
  const all: EditSet = { edits: groups.map((_, index) => index), outcome: null };
  return groups.map((_, index) => {
    const chosen = new Set([index]);
    while (chosen.size < groups.length) {
      const fixes = [...chosen].flatMap((each) => groups[each]!);
      const letter = onlyLetterOf(fixes, score);
      const outcome = trials.after(fixes, letter);
      if (outcome === null) return all;
      const [first] = addedFaults(trials.before(letter), outcome);
      if (first === undefined) return { edits: [...chosen].sort((a, b) => a - b), outcome };
      const fault = outcome.faults.get(first)!;
      const onset = fault.need === null ? placeOf(groups[index]!, score) : toNumber(fault.need.need.onset);
      chosen.add(nearest(score, groups, chosen, fault.letter, onset));
    }
    return all;
  });
};

/** The one pedal that all changes concern; null where they concern several. */
export const onlyLetterOf = (fixes: Group, score: Score): Letter | null => {
  const letters = new Set(fixes.flatMap((fix) => lettersOf(fix, score)));
  return letters.size === 1 ? [...letters][0]! : null;
};

export const lettersOf = (fix: MarkingFix, score: Score): readonly Letter[] => {
  switch (fix.kind) {
    case 'add-setting':
      return Object.keys(fix.setting) as Letter[];
    case 'move-marking':
    case 'remove-marking':
      return Object.keys(score.markings[fix.marking]!.positions) as Letter[];
    case 'rename':
      return [fix.letter, fix.to];
    default:
      return [fix.letter];
  }
};

/** When what an edit changes stands in the score, in quarter notes: where it goes, if it moves. */
export const placeOf = ([fix]: Group, score: Score): number =>
  toNumber('at' in fix! ? fix.at : score.markings[fix!.marking]!.at);

const nearest = (
  score: Score,
  groups: readonly Group[],
  chosen: ReadonlySet<number>,
  letter: Letter,
  onset: number,
): number => {
  const left = groups.map((_, index) => index).filter((index) => !chosen.has(index));
  const own = left.filter((index) => groups[index]!.some((fix) => lettersOf(fix, score).includes(letter)));
  const distance = (index: number): number => Math.abs(placeOf(groups[index]!, score) - onset);
  return (own.length > 0 ? own : left).reduce((a, b) => (distance(b) < distance(a) ? b : a));
};
