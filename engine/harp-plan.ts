import type { LeverFinding, PedalFinding } from './findings/model.ts';
import type { LeverHarpProfile } from './harp/lever-profile.ts';
import type { LeverPlan } from './levers/model.ts';
import type { Plan } from './pedals/model.ts';

/** The plan of a part for the harp that plays it. */
export type HarpPlan =
  | { readonly kind: 'pedal'; readonly plan: Plan }
  | {
      readonly kind: 'lever';
      readonly plan: LeverPlan;
      readonly profile: LeverHarpProfile;
      /** Ids of the notes that the player leaves out. */
      readonly omitted: readonly string[];
    };

/** What the player of either harp should know. */
export type HarpFinding = PedalFinding | LeverFinding;
