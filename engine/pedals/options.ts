import type { Pin } from '../harp/pin.ts';
import type { PedalHarpProfile } from '../harp/profile.ts';
import { CONCERT_HARP } from '../harp/profiles/concert-harp.ts';
import { NO_SCORDATURA, type Scordatura } from '../harp/scordatura.ts';
import type { Pitch } from '../music/pitch.ts';
import { DEFAULT_WEIGHTS, type Weights } from './weights.ts';

/**
 * How notes may be spelled: `keep` as written (double accidentals are respelled all the same, since no string gives
 * them); `suggest` as written, with respellings that would save moves or mend a finding; `free` the cheapest joint
 * choice of spelling and setting.
 */
export type Spelling = 'keep' | 'suggest' | 'free';

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
