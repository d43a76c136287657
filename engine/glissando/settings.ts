import { POSITIONS, type Setting, settingFrom } from '../harp/setting.ts';
import { lazy } from '../memoize.ts';
import { LETTERS, LETTERS_FROM_C, type Letter, pitchClass } from '../music/pitch.ts';
import { countBits, maskOf } from '../music/pitch-classes.ts';
import type { Sought, WantedSound } from './wanted-sound.ts';

/** A setting for a glissando, and what it sounds like. */
export interface GlissandoSetting<Sound extends Sought = WantedSound> {
  /** The sound that it is for. */
  readonly sound: Sound;
  readonly setting: Setting;
  /** Pairs of strings that sound one pitch, lower letter first. */
  readonly unisons: readonly (readonly [Letter, Letter])[];
  /** Neighbouring strings out of pitch order (E sharp with F flat, B sharp with C flat). */
  readonly outOfOrder: boolean;
  /** Pedals to move from the setting before; 0 where none was given. */
  readonly moves: number;
  /** Wanted pitch classes that no string gives, and given ones that are not wanted; both empty for an exact setting. */
  readonly missing: readonly number[];
  readonly extra: readonly number[];
}

/** The settings that sound as wanted, or the nearest ones. */
export interface GlissandoSettings<Sound extends Sought = WantedSound> {
  /** Settings whose seven strings sound the wanted pitch classes and no others. */
  readonly exact: readonly GlissandoSetting<Sound>[];
  /** Settings one pitch class away (one is missing, or a foreign one sounds); where there is none, the next nearest. */
  readonly nearest: readonly GlissandoSetting<Sound>[];
}

/** All 3^7 = 2,187 settings. */
export const ALL_SETTINGS: readonly Setting[] = Array.from({ length: 3 ** LETTERS.length }, (_, code) =>
  settingFrom((letter) => POSITIONS[Math.floor(code / 3 ** LETTERS.indexOf(letter)) % 3]!),
);

/** The pitch class of a letter's strings in semitones above C. */
export const pitchClassOf = (letter: Letter, setting: Setting): number =>
  pitchClass({ letter, alter: setting[letter] });

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
    return KNOWN().map(({ sounding }) => countBits(sounding ^ wantedMask));
  });
  const nearest = distances
    .flat()
    .reduce((least, each) => (each > 0 && each < least ? each : least), PITCH_CLASSES);
  const within = (distance: number): GlissandoSetting<Sound>[] =>
    wanted
      .flatMap((sound, which) =>
        KNOWN()
          .filter((_, i) => distances[which]![i] === distance)
          .map((known) => compareWith(known, sound, from)),
      )
      .sort(
        (a, b) =>
          a.moves - b.moves ||
          Number(a.outOfOrder) - Number(b.outOfOrder) ||
          a.unisons.length - b.unisons.length,
      );
  return { exact: within(0), nearest: within(nearest) };
};

const PITCH_CLASSES = 12;

/** Whether neighbouring strings stand out of pitch order: E sharp with F flat, B sharp with C flat. */
export const isCrossed = ({ E, F, B, C }: Setting): boolean => (E === 1 && F === -1) || (B === 1 && C === -1);

/** Pairs of letters whose strings sound one pitch, lower letter first. */
export const listDoubledStrings = (setting: Setting): readonly (readonly [Letter, Letter])[] =>
  LETTERS_FROM_C.flatMap((a, i) =>
    LETTERS_FROM_C.slice(i + 1)
      .filter((b) => pitchClassOf(a, setting) === pitchClassOf(b, setting))
      .map((b): readonly [Letter, Letter] => [a, b]),
  );

/** What is true of a setting whatever is wanted. */
interface KnownSetting extends Pick<GlissandoSetting, 'setting' | 'unisons' | 'outOfOrder'> {
  readonly given: ReadonlySet<number>;
  /** The same as bits. */
  readonly sounding: number;
}

const KNOWN = lazy((): readonly KnownSetting[] =>
  ALL_SETTINGS.map((setting) => {
    const given = new Set(LETTERS.map((letter) => pitchClassOf(letter, setting)));
    return {
      ...{ setting, given, sounding: maskOf(given) },
      ...{ unisons: listDoubledStrings(setting), outOfOrder: isCrossed(setting) },
    };
  }),
);

const compareWith = <Sound extends Sought>(
  { setting, unisons, outOfOrder, given }: KnownSetting,
  sound: Sound,
  from: Setting | null,
): GlissandoSetting<Sound> => ({
  ...{ sound, setting, unisons, outOfOrder },
  moves: from === null ? 0 : LETTERS.filter((letter) => from[letter] !== setting[letter]).length,
  missing: [...sound.pitchClasses].filter((pitchClass) => !given.has(pitchClass)),
  extra: [...given].filter((pitchClass) => !sound.pitchClasses.has(pitchClass)),
});
