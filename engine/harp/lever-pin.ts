import type { Rational } from '../music/rational.ts';
import type { HarpString } from './profile.ts';

/** A lever raises its one string by a semitone when it is up. */
export type LeverPosition = 'down' | 'up';

/** Something about the levers that the user fixed; times are score times. */
export type LeverPin =
  /** The lever stands so from `from` until just before `until` (to the end where null). */
  | {
      readonly kind: 'lever-position';
      readonly string: HarpString;
      readonly to: LeverPosition;
      readonly from: Rational;
      readonly until: Rational | null;
    }
  /** The lever is set exactly at `at`, by that hand unless either may do it. */
  | {
      readonly kind: 'lever-move';
      readonly string: HarpString;
      readonly to: LeverPosition;
      readonly at: Rational;
      readonly hand: 'left' | 'right' | null;
    }
  /** No lever is set from `from` until just before `until`. */
  | { readonly kind: 'forbid'; readonly from: Rational; readonly until: Rational };

export type LeverMovePin = Extract<LeverPin, { readonly kind: 'lever-move' }>;

export type LeverPositionPin = Extract<LeverPin, { readonly kind: 'lever-position' }>;
