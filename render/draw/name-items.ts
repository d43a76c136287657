import type { Setting } from '../../engine/harp/setting.ts';
import type { Letter } from '../../engine/music/pitch.ts';
import type { PrintedAlter } from '../markings/note-names.ts';

/** What a row of names shows, from the left. */
export type RowItem =
  | NameItem
  | { readonly kind: 'words'; readonly text: string }
  | { readonly kind: 'divider' };

export interface NameItem {
  readonly kind: 'name';
  readonly letter: Letter;
  readonly position: PrintedAlter;
  readonly ringed: boolean;
  /** The octave of a string, where one string is meant. */
  readonly octave?: number;
}

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
