import { withDependencies } from '../../../../engine/index.ts';

type Edits = readonly { readonly with: readonly number[] }[];

/**
 * The edits that are taken after one was ticked or unticked: those that it needs come with it, and those that need it go
 * with it.
 */
export const toggleEdit = (edits: Edits, taken: readonly number[], edit: number): readonly number[] =>
  taken.includes(edit)
    ? taken.filter((other) => !withDependencies(edits, [other]).includes(edit))
    : withDependencies(edits, [...taken, edit]);
