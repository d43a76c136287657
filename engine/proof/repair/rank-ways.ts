import { editsIn } from '../letter/letter-edits.ts';
import { type DraftEdit, placeEdits } from './draft-edits.ts';
import { findRenames } from './find-renames.ts';
import { joinAdditions } from './join-additions.ts';
import { findMovedMarkings, moveEachSetting } from './move-markings.ts';
import { type PartDraft, totalOf } from './part-draft.ts';
import type { Places } from './place-edits.ts';
import { stateAtStart } from './state-at-start.ts';

/** A repair in the making, and its edits at their places. */
export interface Way {
  readonly draft: PartDraft;
  readonly drafts: readonly DraftEdit[];
}

/**
 * The ways to repair all pedals together, those with the fewest edits first: what is taken to be meant in one place
 * decides what comes to one edit in another, and that shows only at the end.
 *
 * @param base each pedal repaired by itself
 * @param countEdits how many edits drafts come to in the file
 */
export const rankWays = (
  base: PartDraft,
  places: Places,
  countEdits: (drafts: readonly DraftEdit[]) => number,
): readonly Way[] =>
  distinct(draftWays(base, places))
    .map((draft): Way & { readonly worth: readonly number[] } => {
      const edits = [...draft.repairs.values()].flatMap((repair) => repair.edits);
      const drafts = placeEdits([...draft.joint, ...edits], places);
      const unmet = [...draft.repairs.values()].reduce((sum, repair) => sum + repair.unmet, 0);
      return { draft, drafts, worth: [unmet, countEdits(drafts), totalOf(draft)] };
    })
    .sort((a, b) => compareWorth(a.worth, b.worth));

const draftWays = (base: PartDraft, places: Places): readonly PartDraft[] => {
  const stated = stateAtStart(base, places.start);
  const edits = [...base.repairs.values()].reduce((sum, { cost }) => sum + editsIn(cost), 0);
  // One edit is as few as can be: it may only be meant otherwise.
  if (edits < 2) return [findRenames(stated, places.start.at)];
  const moved = distinct([stated, base]).flatMap((draft) => [
    findMovedMarkings(draft, places),
    draft,
    ...moveEachSetting(draft, places),
  ]);
  const renamed = distinct(moved).flatMap((draft) => [
    stateAtStart(findRenames(draft, places.start.at), places.start),
    draft,
  ]);
  return distinct(renamed).flatMap((draft) => [joinAdditions(draft, places), draft]);
};

const distinct = <T>(from: readonly T[]): readonly T[] => [...new Set(from)];

const compareWorth = (a: readonly number[], b: readonly number[]): number => {
  const differs = a.findIndex((value, i) => value !== b[i]);
  return differs < 0 ? 0 : a[differs]! - b[differs]!;
};
