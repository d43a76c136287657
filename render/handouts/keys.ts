import {
  E_FLAT_TUNING,
  type KeyPedals,
  LETTERS_FROM_C,
  leversForKey,
  type Mode,
  notesOfKey,
  pedalsForKey,
} from '../../engine/index.ts';
import { type NoteNaming, printedAlter } from '../markings/note-names.ts';
import { besideCells, setGrid, wordsCell } from '../sheets/cells.ts';
import { writeHead, writeHeading } from '../sheets/headings.ts';
import { nameChange, nameInWords } from '../sheets/note-words.ts';
import { letteringsOf, type Sheet } from '../sheets/sheet.ts';
import { wordsOf } from '../words/words.ts';
import type { WallTable, WriteHandout } from './handout.ts';
import { diagramCell, namesCell } from './setting-cell.ts';

/** Key signatures from seven flats to seven sharps. */
const SIGNATURES: readonly number[] = Array.from({ length: 15 }, (_, i) => i - 7);

const nameTonic = (fifths: number, mode: Mode, naming: NoteNaming): string => {
  const { letter, alter } = notesOfKey(fifths, mode).tonic;
  return nameInWords(letter, printedAlter(alter), naming);
};

const tabulatePedals = (naming: NoteNaming): WallTable => ({
  sheets: 1,
  write: (sheet) => {
    const { text, strong } = letteringsOf(sheet);
    const { notes, handouts } = wordsOf(sheet);
    const rows = SIGNATURES.map((fifths) => {
      const { setting } = pedalsForKey(fifths, 'major');
      return [
        wordsCell(nameTonic(fifths, 'major', naming), strong),
        wordsCell(notes.minorTonic(nameTonic(fifths, 'natural minor', naming)), strong),
        diagramCell(setting, naming, sheet),
        namesCell(setting, naming, sheet),
        wordsCell(tellChanges(pedalsForKey(fifths, 'harmonic minor'), naming), text),
        wordsCell(tellChanges(pedalsForKey(fifths, 'melodic minor'), naming), text),
      ];
    });
    const { major, minor, setting, names, harmonic, melodic } = handouts.pedalKeyHeads;
    const grid = setGrid([major, minor, setting, names, harmonic, melodic], rows, sheet);
    return {
      blocks: [...writeHead(handouts.pedalKeys, handouts.pedalKeysLegend, sheet), grid.head, ...grid.rows],
      repeated: grid.head,
      leastWidthMm: grid.leastWidthMm,
    };
  },
});

const tellChanges = ({ changes, beyond }: KeyPedals, naming: NoteNaming): string =>
  [
    ...changes.map(({ letter, to }) => nameChange(letter, to, naming)),
    ...beyond.map((letter) => `(${nameInWords(letter, 2, naming)})`),
  ].join(' ');

const LEVER_TABLES = ['major', 'harmonic minor', 'melodic minor'] as const satisfies readonly Mode[];

/** How the tables are read is told on the first of them; not to raise strings on each that has one to raise. */
const tabulateLevers = (naming: NoteNaming): readonly WallTable[] =>
  LEVER_TABLES.map((mode, i) => ({
    sheets: 1,
    write: (sheet) => {
      const { handouts, notes, tuning } = wordsOf(sheet);
      const legend = [
        ...(i === 0 ? [handouts.leverKeysLegend(notes.major(nameInWords('E', -1, naming)))] : []),
        ...(raisesStrings(mode) ? [tuning.caution] : []),
      ].join(' ');
      const grid = setLevers(mode, sheet, naming);
      return {
        blocks: [
          ...writeHead(handouts.leverKeys, legend === '' ? null : legend, sheet),
          ...writeHeading(handouts.leverTables[mode], sheet),
          grid.head,
          ...grid.rows,
        ],
        repeated: grid.head,
        leastWidthMm: grid.leastWidthMm,
      };
    },
  }));

/** Whether a key of the table has strings above their usual pitch. */
const raisesStrings = (mode: Mode): boolean =>
  SIGNATURES.some((fifths) =>
    leversForKey(fifths, mode).retuned.some(({ letter, to }) => to > E_FLAT_TUNING.letters[letter]),
  );

/** For each letter what its strings are retuned to, in bold, and whether its lever is up. */
const setLevers = (mode: Mode, sheet: Sheet, naming: NoteNaming) => {
  const { handouts } = wordsOf(sheet);
  const { text, strong } = letteringsOf(sheet);
  const space = wordsCell(' ', text);
  const rows = SIGNATURES.map((fifths) => {
    const { up, retuned } = leversForKey(fifths, mode);
    const cells = LETTERS_FROM_C.map((letter) => {
      const tuned = retuned.find((each) => each.letter === letter);
      const lever = up.includes(letter) ? handouts.up : '–';
      if (tuned === undefined) return wordsCell(lever, text);
      const note = wordsCell(nameChange(letter, tuned.to, naming), strong);
      return up.includes(letter) ? besideCells([note, space, wordsCell(lever, text)]) : note;
    });
    return [wordsCell(nameKey(fifths, mode, sheet, naming), strong), ...cells];
  });
  return setGrid(
    [handouts.key, ...LETTERS_FROM_C.map((letter) => nameInWords(letter, 0, naming))],
    rows,
    sheet,
  );
};

/** A major key with its relative minor. */
const nameKey = (fifths: number, mode: Mode, sheet: Sheet, naming: NoteNaming): string => {
  const { major, minor } = wordsOf(sheet).notes;
  return mode === 'major'
    ? `${major(nameTonic(fifths, mode, naming))}, ${minor(nameTonic(fifths, 'natural minor', naming))}`
    : minor(nameTonic(fifths, mode, naming));
};

/** Every major and minor key. */
export const writeKeys: WriteHandout = (naming) => [tabulatePedals(naming), ...tabulateLevers(naming)];
