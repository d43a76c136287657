import type { ProofFindingCode } from '../findings/catalogue.ts';
import type { Finding } from '../findings/model.ts';
import type { Position, Setting } from '../harp/setting.ts';
import type { Letter } from '../music/pitch.ts';
import type { Rational } from '../music/rational.ts';

/** One thing that is wrong or worth knowing about the markings in the file, with the smallest change that fixes it. */
export interface ProofFinding extends Omit<Finding<ProofFindingCode>, 'fixes'> {
  /** Null where no change of a marking fixes it, or nothing needs fixing. Made alone, it leaves no new fault. */
  readonly fix: MarkingFix | null;
  /** Changes to make with `fix`, without which it fixes only a part of this. */
  readonly furtherFixes: readonly MarkingFix[];
}

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
  | ({ readonly kind: 'move'; readonly marking: number; readonly letter: Letter } & FixPlace)
  | { readonly kind: 'remove'; readonly marking: number; readonly letter: Letter };

/** A place at which a marking is to be added, moved or removed. */
export interface FixPlace {
  readonly at: Rational;
  /** Index into the score's bars, and the beat from 1 in units of the meter. */
  readonly bar: number;
  readonly beat: Rational;
}

/** What playing the part by its markings alone brought out. */
export interface Proof {
  /** Markings in the file. */
  readonly markings: number;
  /** Needs of notes that were played, every pass counted. */
  readonly notesChecked: number;
  /** In order of place. */
  readonly findings: readonly ProofFinding[];
  /** No finding is worse than a `note`. */
  readonly correct: boolean;
}
