import type { LeverHarpProfile } from '../lever-profile.ts';
import { E_FLAT_TUNING } from '../open-tuning.ts';

/** The lever harp of 38 strings, A1 to C7 (from memory, no source: makers differ), tuned as the usual one. */
export const LEVER_HARP_38: LeverHarpProfile = {
  kind: 'lever',
  name: 'lever harp, 38 strings',
  lowest: { letter: 'A', octave: 1 },
  highest: { letter: 'C', octave: 7 },
  fixed: [],
  tuning: E_FLAT_TUNING,
};
