import type { Difficulty } from '../difficulty/model.ts';
import type { LeverFinding } from '../findings/model.ts';
import type { LeverPosition } from '../harp/lever-pin.ts';
import type { OpenTuning } from '../harp/open-tuning.ts';
import type { HarpString } from '../harp/profile.ts';
import type { Side } from '../harp/side.ts';
import type { Rational } from '../music/rational.ts';
import type { OneTime } from '../score/bars/one-time.ts';
import type { Respelling } from '../sounding/respelling.ts';
import type { CostTerm, MoveWindow } from '../time/window.ts';

/** The strings whose levers are up at one time, the lowest first; all others are down. */
export type LeverSetting = readonly HarpString[];

/** What the hands do to the levers, and what the player, engraver or composer should know. */
export interface LeverPlan {
  /** How the open strings are tuned before the piece. */
  readonly tuning: OpenTuning;
  /** The levers that are up before the first note: as the first note of each string needs. */
  readonly initial: LeverSetting;
  /** Strings that are played, and those whose levers the user fixed, from the lowest: the levers of others may stand anyhow. */
  readonly played: readonly HarpString[];
  /** In order of time; at one moment from the lowest string. */
  readonly moves: readonly LeverMove[];
  readonly findings: readonly LeverFinding[];
  /** Notes that are played on another string than written; what ornaments bring in is told by findings alone. */
  readonly respellings: readonly Respelling[];
  /** Ids of notes that are left out, with what is tied to them. */
  readonly omitted: readonly string[];
  /** The chosen tuning first, then the best others that were considered. */
  readonly tunings: readonly ListedTuning[];
  readonly summary: LeverSummary;
}

/** One lever goes up or down at one moment. */
export interface LeverMove {
  readonly string: HarpString;
  readonly to: LeverPosition;
  /** What the string gives from here on, in semitones above the natural of its letter: -1 flat to 2. */
  readonly alter: number;
  readonly at: Rational;
  /** Index into the score's bars. */
  readonly bar: number;
  /** Where people are told that it is made (`toldAtIn`): the beat within the bar, from 1, in beats of the meter. */
  readonly beat: Rational;
  /** Whether a pin, or a marking that is kept, has it at this moment. */
  readonly pinned: boolean;
  /** Id of the grace note before which the move is made; null where it is made at an onset or a beat. */
  readonly graceNote: string | null;
  /** The hand that sets the lever. */
  readonly hand: Side;
  /**
   * In printed order, the last note that this hand plays before it leaves the strings, and its first when it is back;
   * null where it has no time to leave them.
   */
  readonly handAway: MoveWindow | null;
  /** It brings a lever back where the music jumps here; read on from the bar before, the lever is there already. */
  readonly restores: boolean;
  /**
   * The one time of playing its bar at which it is made, where it would cost a note or another change at the others; null
   * where it is made each time.
   */
  readonly onlyAt: OneTime | null;
  readonly window: MoveWindow;
  /** What speaks against this moment, each in the unit of the weights, over and above the price of a change itself. */
  readonly cost: readonly CostTerm[];
}

/** What one tuning of the open strings would cost this piece. */
export interface TuningCost {
  readonly tuning: OpenTuning;
  /** The tuning in words, such as `E♭ major`. */
  readonly name: string;
  /** Notes that no string gives in this tuning, and times that a string is asked for two pitches at one moment. */
  readonly missingNotes: number;
  /** The fewest changes during the piece, if the hands needed no time. */
  readonly changes: number;
  /** Pitches that are played on a string of another name. */
  readonly respelled: number;
  /** Levers set before the start. */
  readonly leversUp: number;
  /** Strings that the piece uses and that are tuned otherwise than the harp is by custom. */
  readonly retuned: number;
}

/** A tuning as it is listed beside the chosen one. */
export interface ListedTuning extends TuningCost {
  /**
   * Missing notes, and changes for which no hand has time; null where the tuning was not planned in, since by its figures
   * it could not be better than the chosen one.
   */
  readonly stops: number | null;
}

/** The plan in figures. */
export interface LeverSummary {
  readonly changes: number;
  /** The fewest changes that any plan for these notes in this tuning could have if the hands needed no time. */
  readonly minChanges: number;
  /** Levers up before the first note. */
  readonly leversUp: number;
  /** The bar (index) with most changes; null where nothing changes. */
  readonly busiest: { readonly bar: number; readonly changesInBar: number } | null;
  /** Whether no finding of severity `stop` remains. */
  readonly playable: boolean;
  /** Index of the earliest bar that cannot be played as printed. */
  readonly firstFailure: number | null;
  readonly difficulty: Difficulty;
  /** Whether no plan in this tuning is better; false where the changes are too many for the search to end. */
  readonly provenOptimal: boolean;
  /**
   * Whether every tuning that might leave fewer places unplayable was tried; false where the changes are so many that
   * the search for a tuning was ended before.
   */
  readonly allTuningsTried: boolean;
}
