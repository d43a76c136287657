import { lazy } from '../memoize.ts';
import { LETTERS, LETTERS_FROM_C, type Letter, pitchClass } from '../music/pitch.ts';
import { maskOf } from '../music/pitch-classes.ts';
import { POSITIONS, type Setting, settingFrom } from './setting.ts';

/** All 3^7 = 2,187 settings. */
export const ALL_SETTINGS: readonly Setting[] = Array.from({ length: 3 ** LETTERS.length }, (_, code) =>
  settingFrom((letter) => POSITIONS[Math.floor(code / 3 ** LETTERS.indexOf(letter)) % 3]!),
);

/** What the seven strings of a setting sound, whatever is wanted. */
export interface SettingSound {
  readonly setting: Setting;
  /** The pitch classes that sound, a bit each: 1 for C, 2 for C sharp, and so on. */
  readonly sounding: number;
  /** Pairs of strings that sound one pitch, lower letter first. */
  readonly doubled: readonly (readonly [Letter, Letter])[];
  /** Neighbouring strings out of pitch order (E sharp with F flat, B sharp with C flat). */
  readonly outOfOrder: boolean;
}

/** What each of {@link ALL_SETTINGS} sounds, in the same order; worked out once. */
export const allSettingSounds = lazy((): readonly SettingSound[] =>
  ALL_SETTINGS.map((setting) => ({
    ...{ setting, sounding: soundingMask(setting) },
    ...{ doubled: listDoubledStrings(setting), outOfOrder: isCrossed(setting) },
  })),
);

/** The pitch class of a letter's strings in semitones above C. */
export const pitchClassOf = (letter: Letter, setting: Setting): number =>
  pitchClass({ letter, alter: setting[letter] });

/** The pitch classes that the strings of a setting give, as a mask. */
export const soundingMask = (setting: Setting): number =>
  maskOf(LETTERS.map((letter) => pitchClassOf(letter, setting)));

/** Whether neighbouring strings stand out of pitch order: E sharp with F flat, B sharp with C flat. */
export const isCrossed = ({ E, F, B, C }: Setting): boolean => (E === 1 && F === -1) || (B === 1 && C === -1);

/** Pairs of letters whose strings sound one pitch, lower letter first. */
export const listDoubledStrings = (setting: Setting): readonly (readonly [Letter, Letter])[] =>
  LETTERS_FROM_C.flatMap((a, i) =>
    LETTERS_FROM_C.slice(i + 1)
      .filter((b) => pitchClassOf(a, setting) === pitchClassOf(b, setting))
      .map((b): readonly [Letter, Letter] => [a, b]),
  );
