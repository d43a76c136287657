import {
  ALL_SETTINGS,
  footOf,
  isCrossed,
  LETTERS,
  LETTERS_FROM_C,
  type Letter,
  nameOfPosition,
  POSITIONS,
  type Position,
  pitchClassOf,
  type Setting,
} from '../../engine/index.ts';
import type { NoteNaming } from '../markings/note-names.ts';
import { flowCells, widestOf } from '../sheets/cells.ts';
import { writeHead } from '../sheets/headings.ts';
import { nameChange, nameInWords } from '../sheets/note-words.ts';
import type { Sheet } from '../sheets/sheet.ts';
import { setTable } from '../sheets/table.ts';
import { wordsOf } from '../words/words.ts';
import type { WallTable, WriteHandout } from './handout.ts';
import { titledSetting } from './setting-cell.ts';

interface StringInPosition {
  readonly letter: Letter;
  readonly position: Position;
}

/** A setting in which only one pedal matters. */
const standing = (letter: Letter, position: Position): Setting => ({
  ...ALL_SETTINGS[0]!,
  [letter]: position,
});

/** Every string that gives a pitch class, the natural first. */
const stringsFor = (pitchClass: number): readonly StringInPosition[] =>
  LETTERS_FROM_C.flatMap((letter) => POSITIONS.map((position) => ({ letter, position })))
    .filter(({ letter, position }) => pitchClassOf(letter, standing(letter, position)) === pitchClass)
    .toSorted((a, b) => Math.abs(a.position) - Math.abs(b.position) || b.position - a.position);

const tabulatePairs = (naming: NoteNaming): WallTable => ({
  sheets: 1,
  write: (sheet) => {
    const words = wordsOf(sheet).handouts;
    const { pitch, strings: ofStrings, pedals } = words.doubledHeads;
    const rows = Array.from({ length: 12 }, (_, pitchClass) => {
      const strings = stringsFor(pitchClass);
      return [
        strings.map(({ letter, position }) => nameChange(letter, position, naming)).join(' = '),
        strings.length === 1 ? words.oneString : words.twoStrings,
        strings.length === 1 ? '' : tellPedals(strings, sheet, naming),
      ];
    });
    const table = setTable({ heads: [pitch, ofStrings, pedals], rows }, sheet);
    return {
      blocks: [...writeHead(words.doubled, words.doubledLegend, sheet), table.head, ...table.rows],
      repeated: table.head,
      leastWidthMm: table.leastWidthMm,
    };
  },
});

const tellPedals = (strings: readonly StringInPosition[], sheet: Sheet, naming: NoteNaming): string => {
  const { notes, handouts } = wordsOf(sheet);
  const pedals = strings.map(
    ({ letter, position }) =>
      `${nameInWords(letter, 0, naming)} ${notes.positions[nameOfPosition(position)]}`,
  );
  const feet = new Set(strings.map(({ letter }) => footOf(letter)));
  const [foot] = feet;
  return feet.size === 2 || foot === undefined
    ? handouts.oneEachFoot(notes.list(pedals))
    : handouts.bothOneFoot(notes.list(pedals), foot);
};

/** Settings in which three pitches are doubled, so that only four sound; none with strings out of order. */
const fullestSettings = (): readonly Setting[] =>
  ALL_SETTINGS.filter((setting) => !isCrossed(setting) && soundingOf(setting).length === 4);

const soundingOf = (setting: Setting): readonly Letter[] =>
  LETTERS_FROM_C.filter(
    (letter, i) =>
      LETTERS_FROM_C.findIndex((other) => pitchClassOf(other, setting) === pitchClassOf(letter, setting)) ===
      i,
  );

const showFullest = (naming: NoteNaming): WallTable => {
  const settings = fullestSettings().map((setting) => ({
    setting,
    title: soundingOf(setting)
      .map((letter) => nameInWords(letter, setting[letter], naming))
      .join(' '),
  }));
  return {
    sheets: 2,
    write: (sheet) => {
      const { fullest, fullestLegend } = wordsOf(sheet).handouts;
      const cells = settings.map(({ title, setting }) => titledSetting(title, setting, naming, sheet));
      return {
        blocks: [
          ...writeHead(fullest, fullestLegend(settings.length, LETTERS.length), sheet),
          ...flowCells(cells, sheet),
        ],
        repeated: null,
        leastWidthMm: widestOf(cells),
      };
    },
  };
};

/** Pitches on two strings. */
export const writeDoubledStrings: WriteHandout = (naming) => [tabulatePairs(naming), showFullest(naming)];
