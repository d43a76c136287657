import type { LeverHarpProfile } from '../harp/lever-profile.ts';
import type { OpenTuning } from '../harp/open-tuning.ts';
import { LEVER_HARP } from '../harp/profiles/lever-harp-34.ts';
import type { Pitch } from '../music/pitch.ts';
import { DEFAULT_LEVER_WEIGHTS, type LeverWeights } from './weights.ts';

/**
 * Which tunings are considered: one that is given; the harp's custom and the 15 key signatures, with the fewest changes
 * whatever is to be retuned (`best-key`) or with strings to retune weighed against changes (`sparing`); each letter
 * flat, natural or sharp (`best`).
 */
export type TuningChoice = OpenTuning | 'sparing' | 'best-key' | 'best';

/** What a user may choose about a lever plan. */
export interface LeverOptions {
  readonly profile: LeverHarpProfile;
  readonly tuning: TuningChoice;
  /**
   * Seconds that a hand needs for one change: it leaves the strings, sets the lever and comes back. It plays nothing
   * from half of this before the change until half after, and its next change is no sooner than this.
   */
  readonly moveSeconds: number;
  /** Allow the right hand to set a lever where the left has no time, as a last resort. */
  readonly rightHand: boolean;
  readonly weights: LeverWeights;
  /** Strings that the user chose for notes instead of those written, by note id. */
  readonly respelled: ReadonlyMap<string, Pitch>;
  /** Ids of notes that the player leaves out: they ask for nothing. */
  readonly leftOut: ReadonlySet<string>;
}

export const DEFAULT_LEVER_OPTIONS: LeverOptions = {
  profile: LEVER_HARP,
  tuning: 'sparing',
  moveSeconds: 0.6,
  rightHand: true,
  weights: DEFAULT_LEVER_WEIGHTS,
  respelled: new Map(),
  leftOut: new Set(),
};
