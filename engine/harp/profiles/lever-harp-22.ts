import type { LeverHarpProfile } from '../lever-profile.ts';
import { E_FLAT_TUNING } from '../open-tuning.ts';

/** The lever harp of 22 strings, C3 to C6 (from memory, no source: makers differ), tuned as the usual one. */
export const LEVER_HARP_22: LeverHarpProfile = {
  kind: 'lever',
  name: 'lever harp, 22 strings',
  lowest: { letter: 'C', octave: 3 },
  highest: { letter: 'C', octave: 6 },
  fixed: [],
  tuning: E_FLAT_TUNING,
};
