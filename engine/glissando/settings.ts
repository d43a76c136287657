import type { Setting } from '../harp/setting.ts';
import { allSettingSounds, pitchClassOf, type SettingSound } from '../harp/setting-sound.ts';
import { LETTERS, type Letter } from '../music/pitch.ts';
import { countBits, maskOf } from '../music/pitch-classes.ts';
import type { Sought, WantedSound } from './wanted-sound.ts';

/** A setting for a glissando, and what it sounds like. */
export interface GlissandoSetting<Sound extends Sought = WantedSound>
  extends Pick<SettingSound, 'setting' | 'doubled' | 'outOfOrder'> {
  /** The sound that it is for. */
  readonly sound: Sound;
  /** Pedals to move from the setting before; 0 where none was given. */
  readonly moves: number;
  /** Wanted pitch classes that no string gives; none for an exact setting. */
  readonly missing: readonly number[];
  /** Letters whose strings sound what is not wanted; none for an exact setting. */
  readonly foreign: readonly Letter[];
}

/** The settings that sound as wanted, or the nearest ones. */
export interface GlissandoSettings<Sound extends Sought = WantedSound> {
  /** Settings whose seven strings sound the wanted pitch classes and no others. */
  readonly exact: readonly GlissandoSetting<Sound>[];
  /** Settings one pitch class away (one is missing, or a foreign one sounds); where there is none, the next nearest. */
  readonly nearest: readonly GlissandoSetting<Sound>[];
}

/**
 * Every setting for a glissando that sounds as one of the wanted sounds, the nearest first: by moves from the setting
 * before, then uncrossed ones, then the fewest doubled strings. Looks at all 2,187 settings.
 */
export const findGlissandi = <Sound extends Sought>(
  wanted: readonly Sound[],
  from: Setting | null = null,
): GlissandoSettings<Sound> => {
  const distances = wanted.map(({ pitchClasses }) => {
    const wantedMask = maskOf(pitchClasses);
    return allSettingSounds().map(({ sounding }) => countBits(sounding ^ wantedMask));
  });
  const nearest = distances
    .flat()
    .reduce((least, each) => (each > 0 && each < least ? each : least), PITCH_CLASSES);
  const within = (distance: number): GlissandoSetting<Sound>[] =>
    wanted
      .flatMap((sound, which) =>
        allSettingSounds()
          .filter((_, i) => distances[which]![i] === distance)
          .map((strings) => compareWith(strings, sound, from)),
      )
      .sort(
        (a, b) =>
          a.moves - b.moves ||
          Number(a.outOfOrder) - Number(b.outOfOrder) ||
          a.doubled.length - b.doubled.length,
      );
  return { exact: within(0), nearest: within(nearest) };
};

const PITCH_CLASSES = 12;

const compareWith = <Sound extends Sought>(
  { setting, doubled, outOfOrder, sounding }: SettingSound,
  sound: Sound,
  from: Setting | null,
): GlissandoSetting<Sound> => ({
  ...{ sound, setting, doubled, outOfOrder },
  moves: from === null ? 0 : LETTERS.filter((letter) => from[letter] !== setting[letter]).length,
  missing: [...sound.pitchClasses].filter((pitchClass) => (sounding & maskOf([pitchClass])) === 0),
  foreign: LETTERS.filter((letter) => !sound.pitchClasses.has(pitchClassOf(letter, setting))),
});
