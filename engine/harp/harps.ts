import { namesIn } from '../non-empty.ts';
import type { LeverHarpProfile } from './lever-profile.ts';
import type { PedalHarpProfile } from './profile.ts';
import { CONCERT_HARP } from './profiles/concert-harp.ts';
import { LEVER_HARP_22 } from './profiles/lever-harp-22.ts';
import { LEVER_HARP_27 } from './profiles/lever-harp-27.ts';
import { LEVER_HARP } from './profiles/lever-harp-34.ts';
import { LEVER_HARP_36 } from './profiles/lever-harp-36.ts';
import { LEVER_HARP_36_FROM_C } from './profiles/lever-harp-36-from-c.ts';
import { LEVER_HARP_38 } from './profiles/lever-harp-38.ts';
import { PEDAL_HARP_40 } from './profiles/pedal-harp-40.ts';
import { PEDAL_HARP_44 } from './profiles/pedal-harp-44.ts';
import { PEDAL_HARP_46 } from './profiles/pedal-harp-46.ts';

/** A harp as data, told apart by `kind`: which strings it has, and what changes their pitch. */
export type HarpProfile = PedalHarpProfile | LeverHarpProfile;

/** The two harps: one whose pedals move all strings of a letter, one whose levers move a string each. */
export type HarpKind = HarpProfile['kind'];

/** The harps that come with the program, by name; of each kind the first is the usual one. */
export const HARPS = {
  'concert-harp': CONCERT_HARP,
  'pedal-harp-46': PEDAL_HARP_46,
  'pedal-harp-44': PEDAL_HARP_44,
  'pedal-harp-40': PEDAL_HARP_40,
  'lever-harp-34': LEVER_HARP,
  'lever-harp-38': LEVER_HARP_38,
  'lever-harp-36': LEVER_HARP_36,
  'lever-harp-36-from-c': LEVER_HARP_36_FROM_C,
  'lever-harp-27': LEVER_HARP_27,
  'lever-harp-22': LEVER_HARP_22,
} as const satisfies Readonly<Record<string, HarpProfile>>;

/** A harp by its name in requests. */
export type HarpName = keyof typeof HARPS;

/** The harps that can be named in a request, in the order of their list. */
export const HARP_NAMES = namesIn(HARPS);

/** The harp in words, as a heading or in a list: `Pedal harp, 46 strings`. */
export const harpLabel = (harp: HarpName): string => {
  const { name } = HARPS[harp];
  return `${name.slice(0, 1).toUpperCase()}${name.slice(1)}`;
};
