import { type Foot, footOf, formatChange, POSITIONS, type Position, type Setting } from '../harp/setting.ts';
import { isCrossed, listDoubledStrings, pitchClassOf, soundingMask } from '../harp/setting-sound.ts';
import { LETTERS, LETTERS_FROM_C, type Letter } from '../music/pitch.ts';
import { type HeldSound, listHeldSounds } from './held-sounds.ts';

/** What a setting of the pedals has in it. */
export interface SettingContents {
  readonly setting: Setting;
  /** The seven strings of an octave from C, such as `E♭`. */
  readonly strings: readonly string[];
  /** Pairs of letters whose strings sound one pitch. */
  readonly doubled: readonly (readonly [Letter, Letter])[];
  /** Neighbouring strings out of pitch order (E sharp with F flat, B sharp with C flat). */
  readonly outOfOrder: boolean;
  /** Every chord and scale, those of all strings first. */
  readonly sounds: readonly HeldSound[];
  /** What one move of one pedal makes of it: fourteen, in pedal order. */
  readonly neighbours: readonly NeighbourSetting[];
}

/** A setting one move away. */
export interface NeighbourSetting {
  readonly letter: Letter;
  readonly to: Position;
  readonly foot: Foot;
  readonly setting: Setting;
  /** The string that is new, where no other sounded its pitch before; else none. */
  readonly adds: readonly string[];
  /** The string that is gone, where no other sounds its pitch; else none. */
  readonly takes: readonly string[];
  /** Pairs of strings that sound one pitch now, and did not before. */
  readonly doubles: readonly (readonly [Letter, Letter])[];
  /** Sounds that it holds and the setting before did not; and the other way round. */
  readonly gains: readonly HeldSound[];
  readonly loses: readonly HeldSound[];
}

/**
 * The scales, chords and doubled strings of a setting, and what each single move makes of it.
 *
 * @example describeSetting(parsed).sounds[0].name // “C major”, for all naturals
 */
export const describeSetting = (setting: Setting): SettingContents => {
  const sounds = listHeldSounds(setting);
  return {
    setting,
    strings: LETTERS_FROM_C.map((letter) => formatChange(letter, setting[letter])),
    doubled: listDoubledStrings(setting),
    outOfOrder: isCrossed(setting),
    sounds,
    neighbours: LETTERS.flatMap((letter) =>
      POSITIONS.filter((to) => to !== setting[letter]).map((to) =>
        describeNeighbour(setting, sounds, letter, to),
      ),
    ),
  };
};

const describeNeighbour = (
  before: Setting,
  sounds: readonly HeldSound[],
  letter: Letter,
  to: Position,
): NeighbourSetting => {
  const setting = { ...before, [letter]: to };
  const soundsIn = (which: Setting, pitchOf: Setting): boolean =>
    (soundingMask(which) & (1 << pitchClassOf(letter, pitchOf))) !== 0;
  const now = listHeldSounds(setting);
  const doubledBefore = new Set(listDoubledStrings(before).map((pair) => pair.join()));
  return {
    letter,
    to,
    foot: footOf(letter),
    setting,
    adds: soundsIn(before, setting) ? [] : [formatChange(letter, to)],
    takes: soundsIn(setting, before) ? [] : [formatChange(letter, before[letter])],
    doubles: listDoubledStrings(setting).filter((pair) => !doubledBefore.has(pair.join())),
    gains: without(now, sounds),
    loses: without(sounds, now),
  };
};

const without = (sounds: readonly HeldSound[], others: readonly HeldSound[]): readonly HeldSound[] => {
  const known = new Set(others.map(({ key }) => key));
  return sounds.filter(({ key }) => !known.has(key));
};
