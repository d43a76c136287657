import type { PedalHarpProfile } from '../profile.ts';

/** The concert harp: 47 strings C1 to G7 (Widor, *Initiation musicale*, 1923); C1, D1 and G7 without discs (common practice). */
export const CONCERT_HARP: PedalHarpProfile = {
  kind: 'pedal',
  name: 'concert harp, 47 strings',
  lowest: { letter: 'C', octave: 1 },
  highest: { letter: 'G', octave: 7 },
  fixed: [
    { letter: 'C', octave: 1 },
    { letter: 'D', octave: 1 },
    { letter: 'G', octave: 7 },
  ],
};
