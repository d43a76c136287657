import {
  findGlissandi,
  type GlissandoSetting,
  isLetter,
  LETTERS,
  pitchClassOf,
  ROOTS,
  readWantedSound,
  type Setting,
  type SpelledNote,
} from '../../engine/index.ts';
import { type NoteNaming, printedAlter } from '../markings/note-names.ts';
import type { Block } from '../sheets/block.ts';
import { writeParagraph } from '../sheets/block.ts';
import { type Cell, flowCells, widestOf } from '../sheets/cells.ts';
import { writeHead, writeHeading, writeTitle } from '../sheets/headings.ts';
import { nameInWords } from '../sheets/note-words.ts';
import { letteringsOf, type Sheet } from '../sheets/sheet.ts';
import { wordsOf } from '../words/words.ts';
import type { WriteHandout } from './handout.ts';
import { titledSetting } from './setting-cell.ts';

/** The chords and scales that harps glide over (common practice, no source), by names that the engine reads. */
const SOUNDS = [
  'diminished seventh',
  'dominant ninth',
  'dominant seventh',
  'minor seventh',
  'half-diminished seventh',
  'major sixth',
  'whole tone',
  'major pentatonic',
  'minor pentatonic',
  'major',
  'harmonic minor',
] as const;

/** The best exact setting of a sound on a root; null where no setting gives just its notes. */
const settingFor = (root: string, sound: string): GlissandoSetting | null => {
  const wanted = readWantedSound(`${root} ${sound}`);
  if (!wanted.ok) throw new Error(`“${root} ${sound}” is no sound that the engine reads`);
  return findGlissandi([wanted.value]).exact[0] ?? null;
};

const readRoot = (root: string): SpelledNote => {
  const letter = root.charAt(0);
  if (!isLetter(letter)) throw new Error(`“${root}” is no root`);
  return { letter, alter: root.endsWith('b') ? -1 : root.endsWith('#') ? 1 : 0 };
};

const nameNoteOf = ({ letter, alter }: SpelledNote, naming: NoteNaming): string =>
  nameInWords(letter, printedAlter(alter), naming);

/** The name of a root; where no string has it by this name, that by which the setting gives it too: `F♯ = G♭`. */
const nameRoot = (root: SpelledNote, { setting }: GlissandoSetting, naming: NoteNaming): string => {
  const name = nameNoteOf(root, naming);
  if (setting[root.letter] === root.alter) return name;
  const own = pitchClassOf(root.letter, { ...setting, [root.letter]: root.alter });
  const letter = LETTERS.find((each) => pitchClassOf(each, setting) === own);
  return letter === undefined ? name : `${name} = ${nameNoteOf({ letter, alter: setting[letter] }, naming)}`;
};

/** A sound with its settings, by the names of their roots. */
interface FoundSound {
  readonly sound: (typeof SOUNDS)[number];
  readonly settings: readonly { readonly name: string; readonly setting: Setting }[];
  /** The roots on which no setting gives just these notes. */
  readonly without: readonly string[];
}

const findSound = (sound: (typeof SOUNDS)[number], naming: NoteNaming): FoundSound => {
  const roots = ROOTS.map((root) => ({ root: readRoot(root), best: settingFor(root, sound) }));
  return {
    sound,
    settings: roots.flatMap(({ root, best }) =>
      best === null ? [] : [{ name: nameRoot(root, best, naming), setting: best.setting }],
    ),
    without: roots.flatMap(({ root, best }) => (best === null ? [nameNoteOf(root, naming)] : [])),
  };
};

/** A sound stays on one sheet; those of all sounds stand in the same columns, each `columnMm` wide. */
const writeSound = (
  { sound, without }: FoundSound,
  cells: readonly Cell[],
  columnMm: number,
  sheet: Sheet,
): readonly Block[] => {
  const { aside } = letteringsOf(sheet);
  const { sounds, noSetting } = wordsOf(sheet).handouts;
  const blocks = [
    ...writeHeading(sounds[sound], sheet),
    ...flowCells(cells, sheet, columnMm),
    ...(without.length === 0 ? [] : writeParagraph(noSetting(without), sheet.widthMm, { lettering: aside })),
  ];
  return blocks.map((block, i) => ({ ...block, keepsWithNext: i < blocks.length - 1 }));
};

/** On so many sheets the names under the diagrams can still be read from the bench (by eye). */
const SHEETS = 5;

/** Chords and scales for glissandi. */
export const writeGlissandi: WriteHandout = (naming) => {
  const found = SOUNDS.map((sound) => findSound(sound, naming));
  return [
    {
      sheets: SHEETS,
      isSpread: true,
      write: (sheet) => {
        const { glissandi, glissandiLegend, glissandiPlayedAs } = wordsOf(sheet).handouts;
        const cells = found.map(({ settings }) =>
          settings.map(({ name, setting }) => titledSetting(name, setting, naming, sheet, 'two-rows')),
        );
        const columnMm = widestOf(cells.flat());
        return {
          blocks: [
            ...writeHead(glissandi, `${glissandiLegend} ${glissandiPlayedAs}`, sheet),
            ...found.flatMap((each, i) => writeSound(each, cells[i]!, columnMm, sheet)),
          ],
          // Each sheet may hang alone.
          repeated: writeTitle(glissandi, sheet),
          leastWidthMm: columnMm,
        };
      },
    },
  ];
};
