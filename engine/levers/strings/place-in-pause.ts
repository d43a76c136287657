import type { HarpString } from '../../harp/profile.ts';
import { stepOf } from '../../music/pitch.ts';
import { MOMENTS_IN_PAUSE } from '../../time/pauses.ts';

/** The moment of a pause at which the lever of a string is set: no other lever of the harp has the same. */
export const placeInPause = (string: HarpString): number => stepOf(string) % MOMENTS_IN_PAUSE;
