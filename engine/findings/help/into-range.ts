import type { StringRange } from '../../harp/profile.ts';
import { type Pitch, stepOf } from '../../music/pitch.ts';

/** A pitch as many octaves higher or lower as it takes to have a string. */
export const moveIntoRange = (pitch: Pitch, { lowest, highest }: StringRange): Pitch => {
  const short = Math.max(0, stepOf(lowest) - stepOf(pitch));
  const over = Math.max(0, stepOf(pitch) - stepOf(highest));
  return { ...pitch, octave: pitch.octave + Math.ceil(short / 7) - Math.ceil(over / 7) };
};
