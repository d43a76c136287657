import {
  type KeyPedals,
  LETTERS_FROM_C,
  leversForKey,
  type Mode,
  notesOfKey,
  pedalsForKey,
} from '../../engine/index.ts';
import { type NoteNaming, printedAlter } from '../markings/note-names.ts';
import { setGrid, wordsCell } from '../sheets/cells.ts';
import type { Section } from '../sheets/fill-sheets.ts';
import { writeHead, writeHeading } from '../sheets/headings.ts';
import { nameChange, nameInWords } from '../sheets/note-words.ts';
import { letteringsOf, type Sheet } from '../sheets/sheet.ts';
import { setTable } from '../sheets/table.ts';
import { wordsOf } from '../words/words.ts';
import type { WriteHandout } from './handout.ts';
import { diagramCell, namesCell } from './setting-cell.ts';

/** Key signatures from seven flats to seven sharps. */
const SIGNATURES: readonly number[] = Array.from({ length: 15 }, (_, i) => i - 7);

const nameTonic = (fifths: number, mode: Mode, naming: NoteNaming): string => {
  const { letter, alter } = notesOfKey(fifths, mode).tonic;
  return nameInWords(letter, printedAlter(alter), naming);
};

const writePedals = (sheet: Sheet, naming: NoteNaming): Section => {
  const { text, strong } = letteringsOf(sheet);
  const { minorTonic } = wordsOf(sheet).notes;
  const rows = SIGNATURES.map((fifths) => {
    const { setting } = pedalsForKey(fifths, 'major');
    return [
      wordsCell(nameTonic(fifths, 'major', naming), strong),
      wordsCell(minorTonic(nameTonic(fifths, 'natural minor', naming)), strong),
      diagramCell(setting, naming, sheet),
      namesCell(setting, naming, sheet),
      wordsCell(tellChanges(pedalsForKey(fifths, 'harmonic minor'), naming), text),
      wordsCell(tellChanges(pedalsForKey(fifths, 'melodic minor'), naming), text),
    ];
  });
  const { pedalKeys, pedalKeysLegend, pedalKeyHeads: heads } = wordsOf(sheet).handouts;
  const grid = setGrid(
    [heads.major, heads.minor, heads.setting, heads.names, heads.harmonic, heads.melodic],
    rows,
    sheet,
  );
  return {
    blocks: [...writeHead(pedalKeys, pedalKeysLegend, sheet), grid.head, ...grid.rows],
    repeated: grid.head,
  };
};

const tellChanges = ({ changes, beyond }: KeyPedals, naming: NoteNaming): string =>
  [
    ...changes.map(({ letter, to }) => nameChange(letter, to, naming)),
    ...beyond.map((letter) => `(${nameInWords(letter, 2, naming)})`),
  ].join(' ');

const LEVER_TABLES = ['major', 'harmonic minor', 'melodic minor'] as const satisfies readonly Mode[];

const writeLevers = (sheet: Sheet, naming: NoteNaming): readonly Section[] => {
  const { handouts, notes } = wordsOf(sheet);
  const legend = handouts.leverKeysLegend(notes.major(nameInWords('E', -1, naming)));
  return LEVER_TABLES.map((mode) => {
    const { head, rows } = setTable(leverTable(mode, sheet, naming), sheet);
    return {
      blocks: [
        ...writeHead(handouts.leverKeys, legend, sheet),
        ...writeHeading(handouts.leverTables[mode], sheet),
        head,
        ...rows,
      ],
      repeated: head,
    };
  });
};

const leverTable = (mode: Mode, sheet: Sheet, naming: NoteNaming) => {
  const { handouts } = wordsOf(sheet);
  return {
    heads: [
      handouts.key,
      ...LETTERS_FROM_C.map((letter) => nameInWords(letter, 0, naming)),
      handouts.toRetune,
    ],
    rows: SIGNATURES.map((fifths) => {
      const { up, retuned } = leversForKey(fifths, mode);
      return [
        nameKey(fifths, mode, sheet, naming),
        ...LETTERS_FROM_C.map((letter) => (up.includes(letter) ? handouts.up : '–')),
        retuned
          .map(({ letter, to }) =>
            handouts.retune(nameInWords(letter, 0, naming), nameChange(letter, to, naming)),
          )
          .join(', '),
      ];
    }),
  };
};

const nameKey = (fifths: number, mode: Mode, sheet: Sheet, naming: NoteNaming): string => {
  const { major, minor } = wordsOf(sheet).notes;
  return mode === 'major'
    ? `${major(nameTonic(fifths, mode, naming))}, ${minor(nameTonic(fifths, 'natural minor', naming))}`
    : minor(nameTonic(fifths, mode, naming));
};

/** Every major and minor key. */
export const writeKeys: WriteHandout = (sheet, naming) => [
  writePedals(sheet, naming),
  ...writeLevers(sheet, naming),
];
