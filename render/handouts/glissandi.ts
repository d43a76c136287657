import {
  findGlissandi,
  type GlissandoSetting,
  isLetter,
  ROOTS,
  readWantedSound,
} from '../../engine/index.ts';
import type { NoteNaming } from '../markings/note-names.ts';
import type { Block } from '../sheets/block.ts';
import { writeParagraph } from '../sheets/block.ts';
import { type Cell, flowCells } from '../sheets/cells.ts';
import { writeHead, writeHeading } from '../sheets/headings.ts';
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

const nameRoot = (root: string, naming: NoteNaming): string => {
  const letter = root.charAt(0);
  if (!isLetter(letter)) throw new Error(`“${root}” is no root`);
  return nameInWords(letter, root.endsWith('b') ? -1 : root.endsWith('#') ? 1 : 0, naming);
};

const writeSound = (sound: (typeof SOUNDS)[number], sheet: Sheet, naming: NoteNaming): readonly Block[] => {
  const { aside } = letteringsOf(sheet);
  const { sounds, noSetting } = wordsOf(sheet).handouts;
  const found = ROOTS.map((root) => ({ name: nameRoot(root, naming), best: settingFor(root, sound) }));
  const cells = found.flatMap(({ name, best }): Cell[] =>
    best === null ? [] : [titledSetting(name, best.setting, naming, sheet)],
  );
  const without = found.filter(({ best }) => best === null).map(({ name }) => name);
  const rows = flowCells(cells, sheet);
  return [
    ...writeHeading(sounds[sound], sheet),
    ...rows,
    ...(without.length === 0
      ? []
      : writeParagraph(noSetting(without), sheet.widthMm, {
          lettering: aside,
        })),
  ];
};

/** Chords and scales for glissandi. */
export const writeGlissandi: WriteHandout = (sheet, naming) => [
  {
    blocks: [
      ...writeHead(wordsOf(sheet).handouts.glissandi, wordsOf(sheet).handouts.glissandiLegend, sheet),
      ...SOUNDS.flatMap((sound) => writeSound(sound, sheet, naming)),
    ],
    repeated: null,
  },
];
