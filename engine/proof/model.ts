import type { Position, Setting } from '../harp/setting.ts';
import type { Letter } from '../music/pitch.ts';
import type { Rational } from '../music/rational.ts';
import type { NonEmpty } from '../non-empty.ts';
import type { SourceMarking } from '../score/model/markings.ts';
import type { FindingOfMarkings } from './proof-finding.ts';

/** One thing that is wrong or worth knowing about the markings in the file, with the edits that fix it. */
export type ProofFinding = FindingOfMarkings<MarkingFix>;

/** A change to the markings. `marking` is an index into the score's markings as they are in the file. */
export type MarkingFix =
  | ({ readonly kind: 'add'; readonly letter: Letter; readonly position: Position } & FixPlace)
  | ({ readonly kind: 'add-setting'; readonly setting: Setting } & FixPlace)
  | {
      readonly kind: 'alter';
      readonly marking: number;
      readonly letter: Letter;
      readonly position: Position;
    }
  /** What it says of one pedal is meant for another. */
  | {
      readonly kind: 'rename';
      readonly marking: number;
      readonly letter: Letter;
      readonly to: Letter;
      readonly position: Position;
    }
  | ({ readonly kind: 'move'; readonly marking: number; readonly letter: Letter } & FixPlace)
  /** The marking as a whole, whatever it says. */
  | ({ readonly kind: 'move-marking'; readonly marking: number } & FixPlace)
  | { readonly kind: 'remove-marking'; readonly marking: number }
  | { readonly kind: 'remove'; readonly marking: number; readonly letter: Letter };

/** A place at which a marking is to be added, moved or removed. */
export interface FixPlace {
  readonly at: Rational;
  /** Index into the score's bars, and the beat from 1 in units of the meter. */
  readonly bar: number;
  readonly beat: Rational;
}

/** One edit as one would make it in the file: to one marking, or one new one, for one pedal or several. */
export interface MarkingEdit {
  readonly fixes: NonEmpty<MarkingFix>;
  /** Indices of other edits without which it leaves a new fault. */
  readonly with: readonly number[];
}

/** The fewest edits that leave nothing wrong that markings can put right. */
export interface Repair {
  /** In order of place; empty where nothing is wrong. */
  readonly edits: readonly MarkingEdit[];
  /** The markings with all edits made. */
  readonly markings: readonly SourceMarking[];
  /** No fewer edits would do; a marking that goes further than some bars counts as one removed and one added. */
  readonly proven: boolean;
  /** Faults that are left, since no marking can put them right or no way was found. */
  readonly faultsLeft: number;
}

/** What playing the part by its markings alone brought out. */
export interface Proof {
  readonly kind: 'pedal';
  /** Markings in the file. */
  readonly markings: number;
  /** Needs of notes that were played, every pass counted. */
  readonly notesChecked: number;
  /** In order of place. */
  readonly findings: readonly ProofFinding[];
  /** No finding is worse than a `note`. */
  readonly correct: boolean;
  readonly repair: Repair;
}
