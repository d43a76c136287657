import { letterAtStep, stepOf } from '../music/pitch.ts';
import type { LeverHarpProfile } from './lever-profile.ts';
import { type HarpString, isFixedString } from './profile.ts';

/** The strings of a harp that have a lever, from the lowest. */
export const stringsWithLevers = (profile: LeverHarpProfile): HarpString[] => {
  const { lowest, highest } = profile;
  const count = stepOf(highest) - stepOf(lowest) + 1;
  return Array.from({ length: count }, (_, i) => letterAtStep(stepOf(lowest) + i)).filter(
    (string) => !isFixedString(profile, string),
  );
};
