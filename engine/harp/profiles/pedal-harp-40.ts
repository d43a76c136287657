import type { PedalHarpProfile } from '../profile.ts';

/** The harp of 40 strings, G1 to D7, discs on all (from memory, no source). */
export const PEDAL_HARP_40: PedalHarpProfile = {
  kind: 'pedal',
  name: 'pedal harp, 40 strings',
  lowest: { letter: 'G', octave: 1 },
  highest: { letter: 'D', octave: 7 },
  fixed: [],
};
