import { letterAtStep, stepOf } from '../music/pitch.ts';
import type { LeverHarpProfile } from './lever-profile.ts';
import { type HarpString, isFixedString, type StringRange } from './profile.ts';

/** All strings of a harp, from the lowest. */
export const listStrings = ({ lowest, highest }: StringRange): HarpString[] =>
  Array.from({ length: stepOf(highest) - stepOf(lowest) + 1 }, (_, i) => letterAtStep(stepOf(lowest) + i));

/** The strings of a harp that have a lever, from the lowest. */
export const stringsWithLevers = (profile: LeverHarpProfile): HarpString[] =>
  listStrings(profile).filter((string) => !isFixedString(profile, string));
