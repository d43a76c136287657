import { ALL_SETTINGS, isCrossed, listDoubledStrings, pitchClassOf } from '../glissando/settings.ts';
import type { WantedSound } from '../glissando/wanted-sound.ts';
import { formatChange, type Setting } from '../harp/setting.ts';
import { LETTERS_FROM_C, type Letter } from '../music/pitch.ts';
import { countBits, maskOf } from '../music/pitch-classes.ts';
import { soundingMask } from './held-sounds.ts';
import { measureWay, type WayLength } from './shortest-way.ts';

/** A setting that has a wanted sound in it, and how far it is from where the pedals stand. */
export interface FoundSetting extends WayLength {
  readonly setting: Setting;
  readonly doubled: readonly (readonly [Letter, Letter])[];
  readonly outOfOrder: boolean;
  /** Strings that sound and are not wanted. */
  readonly foreign: readonly string[];
  /** Wanted pitch classes that no string gives, in semitones above C. */
  readonly missing: readonly number[];
}

/** The settings for a wanted sound, the nearest to where the pedals stand first. */
export interface SettingSearch {
  /** All strings belong to the sound: for a glissando. */
  readonly whole: readonly FoundSetting[];
  /** The sound is among the strings, and others are too: for chords and figures. */
  readonly holding: readonly FoundSetting[];
  /** Those that come nearest, where no setting has the whole sound; else empty. */
  readonly nearest: readonly FoundSetting[];
}

/**
 * Searches all 2,187 settings for a sound: by the number of moves from where the pedals stand, then the time they take,
 * uncrossed ones before others, then the fewest foreign strings.
 *
 * @param footRestSeconds the least time between two moves of one foot
 */
export const searchSettings = (
  { pitchClasses }: Pick<WantedSound, 'pitchClasses'>,
  from: Setting,
  footRestSeconds: number,
): SettingSearch => {
  const wanted = maskOf(pitchClasses);
  const missing = (sounding: number): number => countBits(wanted & ~sounding);
  const fewest = Math.min(...MASKED.map(({ sounding }) => missing(sounding)));
  const found = MASKED.filter(({ sounding }) => missing(sounding) === fewest)
    .map(({ setting }) => rate(setting, pitchClasses, from, footRestSeconds))
    .sort(byNearness);
  if (fewest > 0) return { whole: [], holding: [], nearest: found };
  return {
    whole: found.filter(({ foreign }) => foreign.length === 0),
    holding: found.filter(({ foreign }) => foreign.length > 0),
    nearest: [],
  };
};

const MASKED = ALL_SETTINGS.map((setting) => ({ setting, sounding: soundingMask(setting) }));

const rate = (
  setting: Setting,
  pitchClasses: ReadonlySet<number>,
  from: Setting,
  footRestSeconds: number,
): FoundSetting => {
  const given = LETTERS_FROM_C.map((letter) => pitchClassOf(letter, setting));
  return {
    setting,
    ...measureWay(from, setting, footRestSeconds),
    doubled: listDoubledStrings(setting),
    outOfOrder: isCrossed(setting),
    foreign: LETTERS_FROM_C.filter((_, i) => !pitchClasses.has(given[i]!)).map((letter) =>
      formatChange(letter, setting[letter]),
    ),
    missing: [...pitchClasses].filter((pitchClass) => !given.includes(pitchClass)),
  };
};

const byNearness = (a: FoundSetting, b: FoundSetting): number =>
  a.moves - b.moves ||
  a.seconds - b.seconds ||
  Number(a.outOfOrder) - Number(b.outOfOrder) ||
  a.foreign.length - b.foreign.length;
