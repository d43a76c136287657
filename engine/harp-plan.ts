import type { LeverHarpProfile } from './harp/lever-harps.ts';
import type { LeverFinding, LeverPlan } from './levers/model.ts';
import type { Finding, Plan } from './pedals/model.ts';

/** The two harps: one whose pedals move all strings of a letter, one whose levers move a string each. */
export type HarpKind = 'pedal' | 'lever';

/** The plan of a part for the harp that plays it. */
export type HarpPlan =
  | { readonly kind: 'pedal'; readonly plan: Plan }
  | {
      readonly kind: 'lever';
      readonly plan: LeverPlan;
      readonly profile: LeverHarpProfile;
      /** Ids of the notes that the player leaves out. */
      readonly leftOut: readonly string[];
    };

/** What the player of either harp should know. */
export type HarpFinding = Finding | LeverFinding;
