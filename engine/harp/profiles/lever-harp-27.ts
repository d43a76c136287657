import type { LeverHarpProfile } from '../lever-profile.ts';
import { E_FLAT_TUNING } from '../open-tuning.ts';

/** The lever harp of 27 strings, C3 to A6 (from memory, no source: makers differ), tuned as the usual one. */
export const LEVER_HARP_27: LeverHarpProfile = {
  kind: 'lever',
  name: 'lever harp, 27 strings',
  lowest: { letter: 'C', octave: 3 },
  highest: { letter: 'A', octave: 6 },
  fixed: [],
  tuning: E_FLAT_TUNING,
};
