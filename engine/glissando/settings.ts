import { POSITIONS, type Setting, settingFrom } from '../harp/setting.ts';
import { chromaOf, LETTERS, LETTERS_FROM_C, type Letter } from '../music/pitch.ts';
import type { WantedSound } from './wanted-sound.ts';

/** A setting for a glissando, and what it sounds like. */
export interface GlissandoSetting {
  readonly setting: Setting;
  /** Pairs of strings that sound one pitch, lower letter first. */
  readonly doubles: readonly (readonly [Letter, Letter])[];
  /** Neighbouring strings out of pitch order (E sharp with F flat, B sharp with C flat). */
  readonly crossed: boolean;
  /** Pedals to move from the setting before; 0 where none was given. */
  readonly moves: number;
  /** Wanted pitch classes that no string gives, and given ones that are not wanted; both empty for an exact setting. */
  readonly missing: readonly number[];
  readonly foreign: readonly number[];
}

export interface GlissandoAnswer {
  /** Settings whose seven strings sound the wanted pitch classes and no others. */
  readonly exact: readonly GlissandoSetting[];
  /** Settings one pitch class away (one is missing, or a foreign one sounds); where there is none, the next nearest. */
  readonly near: readonly GlissandoSetting[];
}

/** All 3^7 = 2,187 settings. */
export const ALL_SETTINGS: readonly Setting[] = Array.from({ length: 3 ** LETTERS.length }, (_, code) =>
  settingFrom((letter) => POSITIONS[Math.floor(code / 3 ** LETTERS.indexOf(letter)) % 3]!),
);

const pitchClassOf = (letter: Letter, setting: Setting): number =>
  (chromaOf(letter) + setting[letter] + 12) % 12;

/**
 * Every setting for a glissando, the nearest first: by moves from the setting before, then uncrossed ones, then the
 * fewest doubled strings. Looks at all 2,187 settings.
 */
export const findGlissandi = (wanted: WantedSound, from: Setting | null = null): GlissandoAnswer => {
  const judged = ALL_SETTINGS.map((setting) => judge(setting, wanted, from)).sort(
    (a, b) =>
      a.moves - b.moves || Number(a.crossed) - Number(b.crossed) || a.doubles.length - b.doubles.length,
  );
  const distance = (each: GlissandoSetting): number => each.missing.length + each.foreign.length;
  const inexact = judged.filter((each) => distance(each) > 0);
  const nearest = Math.min(...inexact.map(distance));
  return {
    exact: judged.filter((each) => distance(each) === 0),
    near: inexact.filter((each) => distance(each) === nearest),
  };
};

const judge = (setting: Setting, wanted: WantedSound, from: Setting | null): GlissandoSetting => {
  const sounding = LETTERS.map((letter) => pitchClassOf(letter, setting));
  const given = new Set(sounding);
  const doubles = LETTERS_FROM_C.flatMap((a, i) =>
    LETTERS_FROM_C.slice(i + 1)
      .filter((b) => pitchClassOf(a, setting) === pitchClassOf(b, setting))
      .map((b): readonly [Letter, Letter] => [a, b]),
  );
  return {
    setting,
    doubles,
    crossed: (setting.E === 1 && setting.F === -1) || (setting.B === 1 && setting.C === -1),
    moves: from === null ? 0 : LETTERS.filter((letter) => from[letter] !== setting[letter]).length,
    missing: [...wanted.pitchClasses].filter((pitchClass) => !given.has(pitchClass)),
    foreign: [...given].filter((pitchClass) => !wanted.pitchClasses.has(pitchClass)),
  };
};
