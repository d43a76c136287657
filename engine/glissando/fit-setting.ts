import type { Position, Setting } from '../harp/setting.ts';
import { allSettingSounds } from '../harp/setting-sound.ts';
import { LETTERS, type Letter } from '../music/pitch.ts';
import { countBits, maskOf } from '../music/pitch-classes.ts';

/** `exact` sounds the wanted pitch classes and no others; null where no setting does. `nearest` is as near as one comes. */
export interface FittedSettings {
  readonly exact: Setting | null;
  readonly nearest: Setting;
}

/**
 * The setting that comes nearest to some pitch classes and keeps the letters that are settled: with the fewest pitch
 * classes missing, then the fewest foreign ones, uncrossed if there is one, then with the fewest pedals away from where
 * they stand. Looks at all 2,187 settings.
 *
 * @example fitSettings(new Set([0, 3, 6, 9]), { C: 0 }, natural).exact // D♯ C♮ B♯ | E♭ F♯ G♭ A♮
 */
export const fitSettings = (
  pitchClasses: ReadonlySet<number>,
  settled: Readonly<Partial<Record<Letter, Position>>>,
  standing: Setting,
): FittedSettings => {
  const wanted = maskOf(pitchClasses);
  const held = LETTERS.filter((letter) => settled[letter] !== undefined);
  let nearest = standing;
  let least = Number.POSITIVE_INFINITY;
  for (const { setting, sounding, outOfOrder } of allSettingSounds()) {
    const off =
      countBits(wanted & ~sounding) * MISSING +
      countBits(sounding & ~wanted) * FOREIGN +
      (outOfOrder ? CROSSED : 0);
    if (off >= least || held.some((letter) => settled[letter] !== setting[letter])) continue;
    const cost = off + LETTERS.filter((letter) => setting[letter] !== standing[letter]).length;
    if (cost < least) [nearest, least] = [setting, cost];
  }
  return { exact: least < FOREIGN ? nearest : null, nearest };
};

/** Each counts more than all that come after it together. */
const CROSSED = LETTERS.length + 1;
const FOREIGN = 2 * CROSSED;
const MISSING = (LETTERS.length + 1) * FOREIGN;
