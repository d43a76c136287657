import type { LeverHarpProfile } from '../lever-profile.ts';
import { E_FLAT_TUNING } from '../open-tuning.ts';

/**
 * The lever harp: 34 strings, levers on all, tuned in E flat major (common practice, no source). The range C2 to
 * A6 is from memory: makers differ.
 */
export const LEVER_HARP: LeverHarpProfile = {
  kind: 'lever',
  name: 'lever harp, 34 strings',
  lowest: { letter: 'C', octave: 2 },
  highest: { letter: 'A', octave: 6 },
  fixed: [],
  tuning: E_FLAT_TUNING,
};
