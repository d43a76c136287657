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
  const rows = SIGNATURES.map((fifths) => {
    const { setting } = pedalsForKey(fifths, 'major');
    return [
      wordsCell(nameTonic(fifths, 'major', naming), strong),
      wordsCell(nameTonic(fifths, 'natural minor', naming), strong),
      diagramCell(setting, naming, sheet),
      namesCell(setting, naming, sheet),
      wordsCell(tellChanges(pedalsForKey(fifths, 'harmonic minor'), naming), text),
      wordsCell(tellChanges(pedalsForKey(fifths, 'melodic minor'), naming), text),
    ];
  });
  const grid = setGrid(['Major', 'Minor', 'Setting', '', 'Harmonic', 'Melodic, rising'], rows, sheet);
  const legend =
    'A major key and its relative minor have one setting. For the harmonic minor and the rising melodic minor move these pedals too. A double sharp, in brackets here, no pedal gives: it is played on the string above, whose pedal moves for it.';
  return {
    blocks: [...writeHead('Keys on the pedal harp', legend, sheet), grid.head, ...grid.rows],
    repeated: grid.head,
  };
};

const tellChanges = ({ changes, beyond }: KeyPedals, naming: NoteNaming): string =>
  [
    ...changes.map(({ letter, to }) => nameChange(letter, to, naming)),
    ...beyond.map((letter) => `(${nameInWords(letter, 2, naming)})`),
  ].join(' ');

const LEVER_TABLES = [
  ['Major and natural minor', 'major'],
  ['Harmonic minor', 'harmonic minor'],
  ['Melodic minor, rising', 'melodic minor'],
] as const satisfies readonly (readonly [string, Mode])[];

const writeLevers = (sheet: Sheet, naming: NoteNaming): readonly Section[] => {
  const legend = `The strings are tuned to ${nameInWords('E', -1, naming)} major with all levers down. “Up” is a lever to set; in the last column stand the strings of a letter to be retuned before the piece, in every octave. Do not raise a string above its usual pitch unless a harp technician agrees.`;
  return LEVER_TABLES.map(([heading, mode]) => {
    const { head, rows } = setTable(leverTable(mode, naming), sheet);
    return {
      blocks: [
        ...writeHead('Keys on the lever harp', legend, sheet),
        ...writeHeading(heading, sheet),
        head,
        ...rows,
      ],
      repeated: head,
    };
  });
};

const leverTable = (mode: Mode, naming: NoteNaming) => ({
  heads: ['Key', ...LETTERS_FROM_C.map((letter) => nameInWords(letter, 0, naming)), 'To retune'],
  rows: SIGNATURES.map((fifths) => {
    const { up, retuned } = leversForKey(fifths, mode);
    return [
      nameKey(fifths, mode, naming),
      ...LETTERS_FROM_C.map((letter) => (up.includes(letter) ? 'up' : '–')),
      retuned
        .map(
          ({ letter, to }) =>
            `${nameInWords(letter, 0, naming)} strings to ${nameChange(letter, to, naming)}`,
        )
        .join(', '),
    ];
  }),
});

const nameKey = (fifths: number, mode: Mode, naming: NoteNaming): string =>
  mode === 'major'
    ? `${nameTonic(fifths, mode, naming)} major, ${nameTonic(fifths, 'natural minor', naming)} minor`
    : `${nameTonic(fifths, mode, naming)} minor`;

/** Every major and minor key. */
export const writeKeys: WriteHandout = (sheet, naming) => [
  writePedals(sheet, naming),
  ...writeLevers(sheet, naming),
];
