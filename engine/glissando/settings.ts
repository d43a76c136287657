import { POSITIONS, type Setting, settingFrom } from '../harp/setting.ts';
import { chromaOf, LETTERS, LETTERS_FROM_C, type Letter } from '../music/pitch.ts';
import type { WantedSound } from './wanted-sound.ts';

/** A setting for a glissando, and what it sounds like. */
export interface GlissandoSetting {
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
export interface GlissandoSettings {
  /** Settings whose seven strings sound the wanted pitch classes and no others. */
  readonly exact: readonly GlissandoSetting[];
  /** Settings one pitch class away (one is missing, or a foreign one sounds); where there is none, the next nearest. */
  readonly nearest: readonly GlissandoSetting[];
}

/** All 3^7 = 2,187 settings. */
export const ALL_SETTINGS: readonly Setting[] = Array.from({ length: 3 ** LETTERS.length }, (_, code) =>
  settingFrom((letter) => POSITIONS[Math.floor(code / 3 ** LETTERS.indexOf(letter)) % 3]!),
);

/** The pitch class of a letter's strings in semitones above C. */
export const pitchClassOf = (letter: Letter, setting: Setting): number =>
  (chromaOf(letter) + setting[letter] + 12) % 12;

/**
 * Every setting for a glissando, the nearest first: by moves from the setting before, then uncrossed ones, then the
 * fewest doubled strings. Looks at all 2,187 settings.
 */
export const findGlissandi = (
  wanted: Pick<WantedSound, 'pitchClasses'>,
  from: Setting | null = null,
): GlissandoSettings => {
  const judged = ALL_SETTINGS.map((setting) => rateSetting(setting, wanted, from)).sort(
    (a, b) =>
      a.moves - b.moves || Number(a.outOfOrder) - Number(b.outOfOrder) || a.unisons.length - b.unisons.length,
  );
  const distance = (each: GlissandoSetting): number => each.missing.length + each.extra.length;
  const inexact = judged.filter((each) => distance(each) > 0);
  const nearest = Math.min(...inexact.map(distance));
  return {
    exact: judged.filter((each) => distance(each) === 0),
    nearest: inexact.filter((each) => distance(each) === nearest),
  };
};

/** Whether neighbouring strings stand out of pitch order: E sharp with F flat, B sharp with C flat. */
export const isCrossed = ({ E, F, B, C }: Setting): boolean => (E === 1 && F === -1) || (B === 1 && C === -1);

/** Pairs of letters whose strings sound one pitch, lower letter first. */
export const listDoubledStrings = (setting: Setting): readonly (readonly [Letter, Letter])[] =>
  LETTERS_FROM_C.flatMap((a, i) =>
    LETTERS_FROM_C.slice(i + 1)
      .filter((b) => pitchClassOf(a, setting) === pitchClassOf(b, setting))
      .map((b): readonly [Letter, Letter] => [a, b]),
  );

const rateSetting = (
  setting: Setting,
  wanted: Pick<WantedSound, 'pitchClasses'>,
  from: Setting | null,
): GlissandoSetting => {
  const sounding = LETTERS.map((letter) => pitchClassOf(letter, setting));
  const given = new Set(sounding);
  return {
    setting,
    unisons: listDoubledStrings(setting),
    outOfOrder: isCrossed(setting),
    moves: from === null ? 0 : LETTERS.filter((letter) => from[letter] !== setting[letter]).length,
    missing: [...wanted.pitchClasses].filter((pitchClass) => !given.has(pitchClass)),
    extra: [...given].filter((pitchClass) => !wanted.pitchClasses.has(pitchClass)),
  };
};
