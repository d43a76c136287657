import type { LeverAt } from '../../harp/lever-name.ts';
import type { OpenTuning } from '../../harp/open-tuning.ts';
import type { HarpString } from '../../harp/profile.ts';
import type { NonEmpty } from '../../non-empty.ts';
import type { FixPlace } from '../model.ts';
import type { FindingOfMarkings } from '../proof-finding.ts';

/**
 * A change to what a file says of one lever. `marking` is an index into the score's `leverWords`; `alter` is what the
 * string is to give, in semitones above the natural of its letter.
 */
export type LeverFix = AddedLever | WrittenLeverFix;

type AddedLever = { readonly kind: 'add'; readonly string: HarpString; readonly alter: number } & FixPlace;

/** A change to a name that stands in the file. */
export type WrittenLeverFix = {
  readonly marking: number;
  readonly string: HarpString;
  /** The other strings of which the same name tells (“F♯”, “all B♭”), and what it says of them; null where none names it. */
  readonly beside: readonly LeverAt[] | null;
} & (
  | { readonly kind: 'alter'; readonly alter: number }
  /** What it says of one string is meant for another. */
  | { readonly kind: 'rename'; readonly to: HarpString; readonly alter: number }
  | ({ readonly kind: 'move'; readonly alter: number } & FixPlace)
  | { readonly kind: 'remove' }
);

/** One edit as one would make it in the file: to one marking, or one new one, for one lever or several. */
export interface LeverEdit {
  readonly fixes: NonEmpty<LeverFix>;
  /** Indices of other edits without which it leaves a new fault. */
  readonly with: readonly number[];
}

/** One thing that is wrong or worth knowing about the lever markings in a file, with the changes that fix it. */
export type LeverProofFinding = FindingOfMarkings<LeverFix>;

/** What playing the part by its lever markings alone brought out. */
export interface LeverProof {
  readonly kind: 'lever';
  /** Texts in the file that tell of levers and are understood. */
  readonly markings: number;
  /** Needs of notes that were played, every pass counted. */
  readonly notesChecked: number;
  /** The tuning of the open strings by which the markings were read. */
  readonly tuning: OpenTuning;
  /** In order of place. */
  readonly findings: readonly LeverProofFinding[];
  /** No finding is worse than a `note`. */
  readonly correct: boolean;
  readonly repair: {
    /** In order of place; empty where nothing is wrong. */
    readonly edits: readonly LeverEdit[];
    /** No fewer edits would do. */
    readonly proven: boolean;
    readonly faultsLeft: number;
  };
}
