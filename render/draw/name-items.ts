import type { Setting } from '../../engine/harp/setting.ts';
import type { Letter } from '../../engine/music/pitch.ts';
import type { RowItem } from './name-row.ts';

/** Pedals of a setting as names in a row. */
export const nameItems = (
  letters: readonly Letter[],
  setting: Setting,
  ringed: readonly Letter[],
): RowItem[] =>
  letters.map((letter) => ({
    kind: 'name',
    letter,
    position: setting[letter],
    ringed: ringed.includes(letter),
  }));
