import type { PedalHarpProfile } from '../profile.ts';

/**
 * The harp of 46 strings, C1 to F7 (K. W. Gehrkens, *Music Notation and Terminology*, 1914, App. B: 46 strings from
 * C flat to F flat; the strings without discs: common practice, no source).
 */
export const PEDAL_HARP_46: PedalHarpProfile = {
  kind: 'pedal',
  name: 'pedal harp, 46 strings',
  lowest: { letter: 'C', octave: 1 },
  highest: { letter: 'F', octave: 7 },
  fixed: [
    { letter: 'C', octave: 1 },
    { letter: 'D', octave: 1 },
  ],
};
