import type { MarkingEdit } from './model.ts';

/**
 * Edits of a repair with all that they depend on: without these they would leave a new fault.
 *
 * @param chosen indices into the edits
 * @returns indices, in order
 */
export const withDependencies = (
  edits: readonly Pick<MarkingEdit, 'with'>[],
  chosen: Iterable<number>,
): readonly number[] => {
  const taken = new Set<number>();
  const open = [...chosen];
  for (let edit = open.pop(); edit !== undefined; edit = open.pop()) {
    if (taken.has(edit)) continue;
    taken.add(edit);
    open.push(...edits[edit]!.with);
  }
  return [...taken].sort((a, b) => a - b);
};

/** The changes that some edits make. */
export const fixesOf = <Fix>(
  edits: readonly { readonly fixes: readonly Fix[]; readonly with: readonly number[] }[],
  chosen: Iterable<number>,
): readonly Fix[] => withDependencies(edits, chosen).flatMap((index) => edits[index]!.fixes);
