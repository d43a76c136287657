import {
  LEVER_HARP,
  LEVER_HARP_22,
  LEVER_HARP_27,
  LEVER_HARP_36,
  LEVER_HARP_38,
  type LeverHarpProfile,
} from './lever-harps.ts';
import {
  CONCERT_HARP,
  PEDAL_HARP_40,
  PEDAL_HARP_44,
  PEDAL_HARP_46,
  type PedalHarpProfile,
} from './profile.ts';

/** A harp as data, told apart by `kind`: which strings it has, and what changes their pitch. */
export type HarpProfile = PedalHarpProfile | LeverHarpProfile;

/** The two harps: one whose pedals move all strings of a letter, one whose levers move a string each. */
export type HarpKind = HarpProfile['kind'];

/** The harps that come with the program by name; of each kind the first is the usual one. */
export const HARPS = {
  'concert-harp': CONCERT_HARP,
  'pedal-harp-46': PEDAL_HARP_46,
  'pedal-harp-44': PEDAL_HARP_44,
  'pedal-harp-40': PEDAL_HARP_40,
  'lever-harp-34': LEVER_HARP,
  'lever-harp-38': LEVER_HARP_38,
  'lever-harp-36': LEVER_HARP_36,
  'lever-harp-27': LEVER_HARP_27,
  'lever-harp-22': LEVER_HARP_22,
} as const satisfies Readonly<Record<string, HarpProfile>>;

export type HarpName = keyof typeof HARPS;
