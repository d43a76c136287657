import type { OpenTuning } from './open-tuning.ts';
import type { HarpString, StringRange } from './profile.ts';

/** A lever harp: which strings it has, how they are tuned by custom, and which have no lever. */
export interface LeverHarpProfile extends StringRange {
  readonly kind: 'lever';
  /** In words, with the number of its strings. */
  readonly name: string;
  /** Strings without a lever: they keep their open pitch throughout. */
  readonly fixed: readonly HarpString[];
  /** How the open strings are tuned unless a piece asks for something else. */
  readonly tuning: OpenTuning;
}
