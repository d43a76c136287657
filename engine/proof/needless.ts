import type { Score } from '../score/model/score.ts';
import { type Contradiction, listRedundantMarkings, type RedundantMarking } from './marking-faults.ts';
import type { MarkingPlayback } from './marking-playback.ts';
import type { MarkingFix } from './model.ts';
import { onlyLetterOf } from './repair/edit-dependencies.ts';
import type { PartRepair } from './repair/repair-part.ts';
import { addedFaults, type Trials } from './trials.ts';

/** A marking that is there for nothing, and the edits after which it is not: none where it had better stay. */
export interface NeedlessMarking extends RedundantMarking {
  readonly fixes: readonly MarkingFix[];
}

/**
 * Markings that do nothing. One that the repair edits has that edit; another goes, if that does no harm: neither alone
 * nor beside the repair and the others that go.
 */
export const listNeedless = (
  score: Score,
  performance: MarkingPlayback,
  contradictions: readonly Contradiction[],
  repair: PartRepair,
  trials: Trials,
): readonly NeedlessMarking[] => {
  const disputed = new Set(
    contradictions.flatMap(({ letter, first, second }) => [`${first} ${letter}`, `${second} ${letter}`]),
  );
  const made: MarkingFix[] = repair.edits.flatMap(({ fixes }) => fixes);
  const doesNoHarm = (fixes: readonly MarkingFix[]): boolean => {
    const letter = onlyLetterOf(fixes, score);
    const outcome = trials.after(fixes, letter);
    return outcome !== null && addedFaults(trials.before(letter), outcome).length === 0;
  };
  return listRedundantMarkings(score, performance)
    .filter(({ marking, letter }) => !disputed.has(`${marking} ${letter}`))
    .map((redundant) => {
      const { marking, letter } = redundant;
      const edit = repair.edits.findIndex(({ fixes }) =>
        fixes.some(
          (fix) =>
            'marking' in fix && fix.marking === marking && (!('letter' in fix) || fix.letter === letter),
        ),
      );
      if (edit >= 0) {
        const fixes = repair.sets[edit]!.edits.flatMap((index) => repair.edits[index]!.fixes);
        return { ...redundant, fixes };
      }
      const remove: MarkingFix = { kind: 'remove', marking, letter };
      if (!doesNoHarm([remove]) || !doesNoHarm([...made, remove])) return { ...redundant, fixes: [] };
      made.push(remove);
      return { ...redundant, fixes: [remove] };
    });
};
