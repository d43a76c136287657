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
import { flowCells } from '../sheets/cells.ts';
import type { Section } from '../sheets/fill-sheets.ts';
import { writeHead } from '../sheets/headings.ts';
import { nameChange, nameInWords } from '../sheets/note-words.ts';
import type { Sheet } from '../sheets/sheet.ts';
import { setTable } from '../sheets/table.ts';
import type { WriteHandout } from './handout.ts';
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

const writePairs = (sheet: Sheet, naming: NoteNaming): Section => {
  const rows = Array.from({ length: 12 }, (_, pitchClass) => {
    const strings = stringsFor(pitchClass);
    return [
      strings.map(({ letter, position }) => nameChange(letter, position, naming)).join(' = '),
      strings.length === 1 ? 'one only' : 'two',
      strings.length === 1 ? '' : tellPedals(strings, naming),
    ];
  });
  const table = setTable({ heads: ['Pitch', 'Strings', 'Pedals'], rows }, sheet);
  const legend =
    'Two neighbouring strings can give one pitch: for repeated notes without damping, for a tremolo on one pitch, and for a fuller sound. Three pitches stand alone: the strings beside them would need a double sharp or a double flat.';
  return {
    blocks: [...writeHead('Doubled strings', legend, sheet), table.head, ...table.rows],
    repeated: table.head,
  };
};

const tellPedals = (strings: readonly StringInPosition[], naming: NoteNaming): string => {
  const pedals = strings.map(
    ({ letter, position }) => `${nameInWords(letter, 0, naming)} ${nameOfPosition(position)}`,
  );
  const feet = new Set(strings.map(({ letter }) => footOf(letter)));
  const whose = feet.size === 2 ? 'one with each foot' : `both with the ${[...feet][0]} foot`;
  return `${pedals.join(' and ')}, ${whose}`;
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

const writeFullest = (sheet: Sheet, naming: NoteNaming): Section => {
  const settings = fullestSettings();
  const cells = settings.map((setting) =>
    titledSetting(
      soundingOf(setting)
        .map((letter) => nameInWords(letter, setting[letter], naming))
        .join(' '),
      setting,
      naming,
      sheet,
    ),
  );
  const legend = `The ${settings.length} settings in which three pitches are doubled, so that the ${LETTERS.length} strings of an octave give only four notes.`;
  return {
    blocks: [...writeHead('Three doubled pitches at once', legend, sheet), ...flowCells(cells, sheet)],
    repeated: null,
  };
};

/** Pitches on two strings. */
export const writeDoubledStrings: WriteHandout = (sheet, naming) => [
  writePairs(sheet, naming),
  writeFullest(sheet, naming),
];
