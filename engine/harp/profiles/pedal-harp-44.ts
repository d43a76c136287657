import type { PedalHarpProfile } from '../profile.ts';

/** The harp of 44 strings, C1 to D7 (from memory, no source). */
export const PEDAL_HARP_44: PedalHarpProfile = {
  kind: 'pedal',
  name: 'pedal harp, 44 strings',
  lowest: { letter: 'C', octave: 1 },
  highest: { letter: 'D', octave: 7 },
  fixed: [
    { letter: 'C', octave: 1 },
    { letter: 'D', octave: 1 },
  ],
};
