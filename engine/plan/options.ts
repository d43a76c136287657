import { CONCERT_HARP, type PedalHarpProfile } from '../harp/profile.ts';
import { DEFAULT_WEIGHTS, type Weights } from './weights.ts';

/** What a user may choose about a plan. */
export interface PlanOptions {
  readonly profile: PedalHarpProfile;
  readonly weights: Weights;
  /** Allow one foot to take two neighbouring pedals in one direction together, as a last resort. */
  readonly pedalsTogether: boolean;
}

export const DEFAULT_OPTIONS: PlanOptions = {
  profile: CONCERT_HARP,
  weights: DEFAULT_WEIGHTS,
  pedalsTogether: false,
};
