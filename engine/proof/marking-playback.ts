import type { Foot, Position } from '../harp/setting.ts';
import type { Letter } from '../music/pitch.ts';
import type { NonEmpty } from '../non-empty.ts';
import type { Need } from '../sounding/needs.ts';
import type { TimedFootTask } from './late-tasks.ts';

/** Notes of one pedal that stand wrong for the same reason, one after the other. */
export interface Failure {
  readonly letter: Letter;
  readonly wanted: Position;
  readonly needs: NonEmpty<Need>;
  /** Where the pedal stands instead, and the marking (index) that says so. */
  readonly stands: Position;
  readonly marking: number;
  /** The bar to which the music jumped since the pedal was marked; null where it did not. */
  readonly landedIn: number | null;
  /** Passes, counted from 1 for the bar of the first need. */
  readonly passes: readonly number[];
  /** The pedal is marked to move while the note goes on. */
  readonly whileHeld: boolean;
  /** Keys of the faults that it brings together, one for each need and pass. */
  readonly faults: readonly string[];
}

/** One need that was not met on one pass. */
export interface NeedFault {
  readonly need: Need;
  readonly pass: number;
  /** The bar to which the music jumped since the pedal was marked; null where it did not. */
  readonly landedIn: number | null;
  /** Where the pedal stands instead; null where no marking has said so. */
  readonly stands: Position | null;
  /** False for a glissando that sounds otherwise than the key: that is worth a look, and may be meant. */
  readonly isFault: boolean;
}

/** A change that one foot makes in performance. */
export interface PedalTask extends TimedFootTask {
  readonly foot: Foot;
  readonly letter: Letter;
  readonly to: Position;
  readonly marking: number;
  /** The note for which it must be done, and its pass. */
  readonly before: Need;
  readonly pass: number;
}

/** What one marking did for one letter, over all passes. */
export interface MarkingEffect {
  changed: number;
  needed: number;
}

/** The part as played by its markings alone. */
export interface MarkingPlayback {
  readonly notesChecked: number;
  readonly failures: readonly Failure[];
  /** In order of release, both feet. */
  readonly tasks: readonly PedalTask[];
  /** Needs of pedals of which no marking has said yet where they stand. */
  readonly unstated: readonly Need[];
  /** Strings of glissandi that sound otherwise than their notes and the key signature say, with their positions. */
  readonly againstKey: ReadonlyMap<Need, Position>;
  /** Every need that was not met, by a key that tells need and pass, in the order they are played. */
  readonly needFaults: ReadonlyMap<string, NeedFault>;
  /** By index of marking and letter. */
  readonly effectOf: (marking: number, letter: Letter) => MarkingEffect;
  /** Whether a note was served on some pass. */
  readonly wasMet: (need: Need) => boolean;
}
