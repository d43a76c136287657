import type { Letter } from '../music/pitch.ts';
import type { Rational } from '../music/rational.ts';
import type { Position } from './setting.ts';

/** Something the user fixed; times are score times. */
export type Pin =
  /** The pedal stands so from `from` until just before `until` (to the end where null). */
  | {
      readonly kind: 'position';
      readonly letter: Letter;
      readonly position: Position;
      readonly from: Rational;
      readonly until: Rational | null;
    }
  /** The pedal moves to `position` exactly at `at`. */
  | { readonly kind: 'move'; readonly letter: Letter; readonly position: Position; readonly at: Rational }
  /** No pedal moves from `from` until just before `until`. */
  | { readonly kind: 'forbid'; readonly from: Rational; readonly until: Rational };

export type MovePin = Extract<Pin, { readonly kind: 'move' }>;

export type HeldPin = Extract<Pin, { readonly kind: 'position' }>;
