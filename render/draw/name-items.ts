import { accidentalSign, FEET, type Letter, type Setting } from '../../engine/index.ts';
import {
  type NoteName,
  type NoteNaming,
  nameNote,
  nameTuned,
  type PrintedAlter,
} from '../markings/note-names.ts';

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
  /** The last octave, where the strings of several are meant. */
  readonly untilOctave?: number;
  /** It is what a string is tuned to. */
  readonly isTuned?: true;
}

export const nameOfItem = ({ letter, position, isTuned }: NameItem, naming: NoteNaming): NoteName =>
  (isTuned ? nameTuned : nameNote)(letter, position, naming);

/** `4`, `2–5`, or nothing where no string is meant. */
export const octaveText = ({ octave, untilOctave }: NameItem): string =>
  octave === undefined ? '' : `${octave}${untilOctave === undefined ? '' : `–${untilOctave}`}`;

/** A row in letters: `D♯ C♮ | E♭`. */
export const rowText = (items: readonly RowItem[], naming: NoteNaming): string =>
  items.map((item) => itemText(item, naming)).join(' ');

const itemText = (item: RowItem, naming: NoteNaming): string => {
  if (item.kind === 'divider') return '|';
  if (item.kind === 'words') return item.text;
  const { word, accidental } = nameOfItem(item, naming);
  return `${word}${accidental === null ? '' : accidentalSign(accidental)}${octaveText(item)}`;
};

/** All pedals of a setting in a row, the feet parted by a divider. */
export const settingItems = (setting: Setting, ringed: readonly Letter[]): RowItem[] => [
  ...nameItems(FEET.left, setting, ringed),
  { kind: 'divider' },
  ...nameItems(FEET.right, setting, ringed),
];

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
