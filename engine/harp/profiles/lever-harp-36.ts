import type { LeverHarpProfile } from '../lever-profile.ts';
import { E_FLAT_TUNING } from '../open-tuning.ts';

/** The lever harp of 36 strings from A1 to A6 (from memory, no source: makers differ; see `lever-harp-36-from-c`), tuned as the usual one. */
export const LEVER_HARP_36: LeverHarpProfile = {
  kind: 'lever',
  name: 'lever harp, 36 strings',
  lowest: { letter: 'A', octave: 1 },
  highest: { letter: 'A', octave: 6 },
  fixed: [],
  tuning: E_FLAT_TUNING,
};
