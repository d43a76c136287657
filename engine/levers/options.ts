import type { LeverPin } from '../harp/lever-pin.ts';
import type { LeverHarpProfile } from '../harp/lever-profile.ts';
import { LEVER_HARP } from '../harp/profiles/lever-harp-34.ts';
import type { Pitch } from '../music/pitch.ts';
import { completeChoice, readChosen } from '../options/choose.ts';
import type { Choice, Values } from '../options/describe-option.ts';
import { LEVER_CATALOGUE, type TuningChoice } from './catalogue.ts';

/** What a user chose of the options in the catalogue, as requests hold it. */
export type LeverChoice = Choice<typeof LEVER_CATALOGUE>;

/** What a user may choose about a lever plan. */
export interface LeverOptions extends Omit<Values<typeof LEVER_CATALOGUE>, 'tuning' | 'leverSeconds'> {
  readonly profile: LeverHarpProfile;
  readonly tuning: TuningChoice;
  /**
   * Seconds that a hand needs for one change: it leaves the strings, sets the lever and comes back. It plays nothing
   * from half of this before the change until half after, and its next change is no sooner than this.
   */
  readonly leverSeconds: number;
  /** What the user fixed. */
  readonly pins: readonly LeverPin[];
  /** Strings that the user chose for notes instead of those written, by note id. */
  readonly respelled: ReadonlyMap<string, Pitch>;
  /** Ids of notes that the player leaves out: they ask for nothing. */
  readonly omitted: ReadonlySet<string>;
}

/**
 * The planner's options for what a user chose.
 *
 * @param choice checked; what is left out is as the catalogue has it
 */
export const leverOptionsFor = (choice: LeverChoice): LeverOptions => {
  const { tuning, leverSeconds, ...plain } = completeChoice(LEVER_CATALOGUE, choice, 'lever');
  return {
    ...plain,
    profile: LEVER_HARP,
    tuning: readChosen(LEVER_CATALOGUE.tuning, tuning),
    leverSeconds,
    pins: [],
    respelled: new Map(),
    omitted: new Set(),
  };
};

/** How levers are planned where nothing is chosen: the catalogue’s defaults, for a harp of 34 strings. */
export const DEFAULT_LEVER_OPTIONS: LeverOptions = leverOptionsFor({});
