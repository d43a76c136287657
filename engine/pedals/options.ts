import type { PedalHarpProfile } from '../harp/profile.ts';
import { CONCERT_HARP } from '../harp/profiles/concert-harp.ts';
import { NO_SCORDATURA, type Scordatura } from '../harp/scordatura.ts';
import type { Position } from '../harp/setting.ts';
import type { Letter, Pitch } from '../music/pitch.ts';
import type { Rational } from '../music/rational.ts';
import { DEFAULT_WEIGHTS, type Weights } from './weights.ts';

/**
 * How notes may be spelled: `keep` as written (double accidentals are respelled all the same, since no string gives
 * them); `suggest` as written, with respellings that would save moves or mend a finding; `free` the cheapest joint
 * choice of spelling and setting.
 */
export type Spelling = 'keep' | 'suggest' | 'free';

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

/** What a user may choose about a plan. */
export interface PlanOptions {
  readonly profile: PedalHarpProfile;
  /** Strings tuned away from their pitch before the piece. */
  readonly scordatura: Scordatura;
  readonly weights: Weights;
  readonly spelling: Spelling;
  readonly pins: readonly Pin[];
  /** Strings that the user chose for notes instead of those written, by note id; kept by every spelling. */
  readonly respelled: ReadonlyMap<string, Pitch>;
  /** Ids of notes that the player leaves out: they ask for nothing. */
  readonly leftOut: ReadonlySet<string>;
  /** Take the pedal markings that the file already holds as pins. */
  readonly keepMarkings: boolean;
  /** Allow one foot to take two neighbouring pedals in one direction together, as a last resort. */
  readonly pedalsTogether: boolean;
  /** Allow a foot to cross to the nearest pedal of the other side (B or E), as a last resort. */
  readonly crossFeet: boolean;
}

export const DEFAULT_OPTIONS: PlanOptions = {
  profile: CONCERT_HARP,
  scordatura: NO_SCORDATURA,
  weights: DEFAULT_WEIGHTS,
  spelling: 'keep',
  pins: [],
  respelled: new Map(),
  leftOut: new Set(),
  keepMarkings: false,
  pedalsTogether: false,
  crossFeet: false,
};
