import type { LeverHarpProfile } from '../lever-profile.ts';
import { E_FLAT_TUNING } from '../open-tuning.ts';

/** The lever harp of 36 strings from C2 to C7 (from memory, no source: makers differ), tuned as the usual one. */
export const LEVER_HARP_36_FROM_C: LeverHarpProfile = {
  kind: 'lever',
  name: 'lever harp, 36 strings, from C2 to C7',
  lowest: { letter: 'C', octave: 2 },
  highest: { letter: 'C', octave: 7 },
  fixed: [],
  tuning: E_FLAT_TUNING,
};
