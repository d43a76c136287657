import { E_FLAT_TUNING, type OpenTuning } from './open-tuning.ts';
import type { HarpString, StringRange } from './profile.ts';

/** A lever harp: which strings it has, how they are tuned by custom, and which have no lever. */
export interface LeverHarpProfile extends StringRange {
  readonly kind: 'lever';
  readonly name: string;
  /** Strings without a lever: they keep their open pitch throughout. */
  readonly fixed: readonly HarpString[];
  /** How the open strings are tuned unless a piece asks for something else. */
  readonly tuning: OpenTuning;
}

const leverHarp = (strings: number, lowest: HarpString, highest: HarpString): LeverHarpProfile => ({
  kind: 'lever',
  name: `lever harp, ${strings} strings`,
  lowest,
  highest,
  fixed: [],
  tuning: E_FLAT_TUNING,
});

/**
 * The lever harp: 34 strings, levers on all, tuned in E flat major (common practice; facts: cp-lever). The range C2 to
 * A6 is from memory: makers differ.
 */
export const LEVER_HARP: LeverHarpProfile = leverHarp(
  34,
  { letter: 'C', octave: 2 },
  { letter: 'A', octave: 6 },
);

/** Larger and smaller lever harps: ranges from memory, no source. Makers differ, so a profile can be given as data. */
export const LEVER_HARP_38: LeverHarpProfile = leverHarp(
  38,
  { letter: 'A', octave: 1 },
  { letter: 'C', octave: 7 },
);
export const LEVER_HARP_36: LeverHarpProfile = leverHarp(
  36,
  { letter: 'A', octave: 1 },
  { letter: 'A', octave: 6 },
);
export const LEVER_HARP_27: LeverHarpProfile = leverHarp(
  27,
  { letter: 'C', octave: 3 },
  { letter: 'A', octave: 6 },
);
export const LEVER_HARP_22: LeverHarpProfile = leverHarp(
  22,
  { letter: 'C', octave: 3 },
  { letter: 'C', octave: 6 },
);
