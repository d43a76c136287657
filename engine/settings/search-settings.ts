import type { Sought, WantedSound } from '../glissando/wanted-sound.ts';
import { formatChange, type Setting } from '../harp/setting.ts';
import { allSettingSounds, pitchClassOf, type SettingSound } from '../harp/setting-sound.ts';
import { LETTERS_FROM_C } from '../music/pitch.ts';
import { countBits, maskOf } from '../music/pitch-classes.ts';
import { measureWay, type WayLength } from './shortest-way.ts';

/** A setting that has a wanted sound in it, and how far it is from where the pedals stand. */
export interface FoundSetting<Sound extends Sought = WantedSound>
  extends WayLength,
    Pick<SettingSound, 'setting' | 'doubled' | 'outOfOrder'> {
  /** The sound that it is for. */
  readonly sound: Sound;
  /** Strings that sound and are not wanted. */
  readonly foreign: readonly string[];
  /** Wanted pitch classes that no string gives, in semitones above C. */
  readonly missing: readonly number[];
}

/** The settings for a wanted sound, the nearest to where the pedals stand first. */
export interface SettingSearch<Sound extends Sought = WantedSound> {
  /** All strings belong to the sound: for a glissando. */
  readonly whole: readonly FoundSetting<Sound>[];
  /** The sound is among the strings, and others are too: for chords and figures. */
  readonly holding: readonly FoundSetting<Sound>[];
  /** Those that come nearest, where no setting has the whole sound; else empty. */
  readonly nearest: readonly FoundSetting<Sound>[];
}

/**
 * Searches all 2,187 settings for one of some sounds: by the number of moves from where the pedals stand, then the time they take,
 * uncrossed ones before others, then the fewest foreign strings.
 *
 * @param footRestSeconds the least time between two moves of one foot
 */
export const searchSettings = <Sound extends Sought>(
  wanted: readonly Sound[],
  from: Setting,
  footRestSeconds: number,
): SettingSearch<Sound> => {
  const tried = wanted.flatMap((sound) => {
    const mask = maskOf(sound.pitchClasses);
    return allSettingSounds().map((strings) => ({
      sound,
      strings,
      missing: countBits(mask & ~strings.sounding),
    }));
  });
  const fewest = tried.reduce((least, { missing }) => Math.min(least, missing), Number.POSITIVE_INFINITY);
  const found = tried
    .filter(({ missing }) => missing === fewest)
    .map(({ sound, strings }) => rate(strings, sound, from, footRestSeconds))
    .sort(byNearness);
  if (fewest > 0) return { whole: [], holding: [], nearest: found };
  return {
    whole: found.filter(({ foreign }) => foreign.length === 0),
    holding: found.filter(({ foreign }) => foreign.length > 0),
    nearest: [],
  };
};

const rate = <Sound extends Sought>(
  { setting, sounding, doubled, outOfOrder }: SettingSound,
  sound: Sound,
  from: Setting,
  footRestSeconds: number,
): FoundSetting<Sound> => {
  const { pitchClasses } = sound;
  return {
    ...{ sound, setting, doubled, outOfOrder },
    ...measureWay(from, setting, footRestSeconds),
    foreign: LETTERS_FROM_C.filter((letter) => !pitchClasses.has(pitchClassOf(letter, setting))).map(
      (letter) => formatChange(letter, setting[letter]),
    ),
    missing: [...pitchClasses].filter((pitchClass) => (sounding & maskOf([pitchClass])) === 0),
  };
};

const byNearness = (a: FoundSetting<Sought>, b: FoundSetting<Sought>): number =>
  a.moves - b.moves ||
  a.seconds - b.seconds ||
  Number(a.outOfOrder) - Number(b.outOfOrder) ||
  a.foreign.length - b.foreign.length;
