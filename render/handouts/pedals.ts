import {
  FEET,
  type Foot,
  HARP_NAMES,
  HARPS,
  type HarpString,
  isFixedString,
  LETTERS,
  type Letter,
  listStrings,
  nameOfPosition,
  POSITIONS,
  type Position,
  pedalsForKey,
  type Setting,
  SIDES,
} from '../../engine/index.ts';
import type { NoteNaming } from '../markings/note-names.ts';
import { type Block, baselineOf, emptySpace, heightOfLines, writeParagraph } from '../sheets/block.ts';
import { writeHead, writeHeading, writeTitle } from '../sheets/headings.ts';
import { drawLine, fillCircle, fillRectangle, frameRectangle } from '../sheets/ink.ts';
import { nameChange, nameInWords, namePitch, withOctaves } from '../sheets/note-words.ts';
import { drawSettingWide } from '../sheets/setting-wide.ts';
import { letteringsOf, type Sheet } from '../sheets/sheet.ts';
import { setTable } from '../sheets/table.ts';
import { breakWords, drawWords } from '../sheets/words.ts';
import { wordsOf } from '../words/words.ts';
import type { WallTable, WriteHandout } from './handout.ts';

/** Sizes in ems: the slot of a pedal with its notches, and the string with its discs. */
const SLOT = { height: 6, notch: 1.6, width: 0.9 } as const;
const STRING_EM = 9;
const DISC_EM = 0.75;
const PIN_EM = 0.62;

/** The three positions are drawn so much larger than the seven pedals. */
const POSITIONS_ENLARGED = 1.5;
/** What the three positions, and what the seven pedals need to stand side by side. */
const POSITIONS_EM = 30;
const PEDALS_EM = 34;
/** How wide the diagram is, as a share of the sheet. */
const DIAGRAM_SHARE = 0.4;

/** The notch of a position, from the top: flat, natural, sharp. */
const notchOf = (position: Position): number => POSITIONS.indexOf(position);

/**
 * How many discs hold a string in a position: none in flat, the upper in natural, both in sharp, each a semitone (common
 * practice, no source).
 */
export const discsHolding = (position: Position): number => notchOf(position);

/** The three positions: where the pedal stands, and which discs hold the string. */
const drawPositions = (letter: Letter, naming: NoteNaming, sheet: Sheet): Block => {
  const em = sheet.emMm;
  const picture = POSITIONS_ENLARGED * em;
  const { strong, text } = letteringsOf(sheet);
  const { notes, handouts } = wordsOf(sheet);
  const step = sheet.widthMm / POSITIONS.length;
  const captions = POSITIONS.map((position) =>
    breakWords(handouts.notches[nameOfPosition(position)], step - em, text),
  );
  const lines = Math.max(...captions.map(({ length }) => length));
  return {
    heightMm: STRING_EM * picture + 4.1 * em + heightOfLines(lines, text),
    draw: (x, y) =>
      POSITIONS.map((position, i) => {
        const left = x + i * step;
        return [
          drawWords(notes.positions[nameOfPosition(position)], left, y + em, strong),
          drawWords(handouts.gives(nameChange(letter, position, naming)), left, y + 2.3 * em, text),
          drawSlot(notchOf(position), left, y + 3.4 * em + 1.2 * picture, picture),
          drawString(discsHolding(position), left + 5 * picture, y + 3.2 * em, picture),
          ...captions[i]!.map((line, l) =>
            drawWords(line, left, y + STRING_EM * picture + 3.6 * em + baselineOf(l, text), text),
          ),
        ].join('');
      }).join('\n'),
  };
};

/** The slot in the base with its three notches, and the pedal in one of them. */
const drawSlot = (notch: number, x: number, y: number, em: number): string => {
  const slot = { x, y, widthMm: SLOT.width * em, heightMm: SLOT.height * em };
  const notches = POSITIONS.map((_, i) => {
    const top = y + (0.5 + i * 1.9) * em;
    const room = { x: x + slot.widthMm, y: top, widthMm: SLOT.notch * em, heightMm: 1.2 * em };
    const pedal = {
      x: x + slot.widthMm - 0.2 * em,
      y: top + 0.25 * em,
      widthMm: 2.4 * em,
      heightMm: 0.7 * em,
    };
    return frameRectangle(room, { widthMm: 0.06 * em }) + (i === notch ? fillRectangle(pedal, '#000') : '');
  });
  return frameRectangle(slot, { widthMm: 0.06 * em }) + notches.join('');
};

/** A string from its tuning pin over two discs: a disc that holds it has turned its pins against it. */
const drawString = (holding: number, x: number, y: number, em: number): string => {
  const string = [
    [x, y],
    [x, y + STRING_EM * em],
  ] as const;
  const discs = [2.6, 5].map((down, i) => {
    const middle = y + down * em;
    const isHolding = i < holding;
    const pins = isHolding ? PIN_EM * 0.35 : PIN_EM;
    return [
      fillCircle(x, middle, DISC_EM * em, '#ddd'),
      drawLine(string, { widthMm: 0.09 * em }),
      fillCircle(x - pins * em, middle - (isHolding ? 0.45 : 0) * em, 0.17 * em, '#000'),
      fillCircle(x + pins * em, middle + (isHolding ? 0.45 : 0) * em, 0.17 * em, '#000'),
    ].join('');
  });
  // What sounds is the string below the last disc that holds it.
  const sounding = [
    [x, y + (holding === 0 ? 0.6 : holding === 1 ? 2.6 : 5) * em],
    [x, y + STRING_EM * em],
  ] as const;
  return [
    fillCircle(x, y + 0.4 * em, 0.3 * em, '#000'),
    ...discs,
    drawLine(sounding, { widthMm: 0.22 * em }),
  ].join('');
};

const nameFoot = (foot: Foot, naming: NoteNaming, sheet: Sheet): string =>
  wordsOf(sheet).handouts.pedalsOfFoot[foot](
    FEET[foot].map((letter) => nameInWords(letter, 0, naming)).join(', '),
  );

/** The seven pedals as the player sees them, each in its notch. */
const drawPedals = (setting: Setting, naming: NoteNaming, sheet: Sheet): Block => {
  const em = sheet.emMm;
  const { strong } = letteringsOf(sheet);
  const step = sheet.widthMm / (LETTERS.length + 1);
  const order = [...FEET.left, null, ...FEET.right];
  return {
    heightMm: (SLOT.height + 2.6) * em,
    draw: (x, y) =>
      order
        .map((letter, i) => {
          const left = x + i * step;
          if (letter === null) {
            const column = [
              [left + step / 3, y],
              [left + step / 3, y + (SLOT.height + 1.8) * em],
            ] as const;
            return drawLine(column, { widthMm: 0.15 * em });
          }
          return (
            drawWords(nameInWords(letter, 0, naming), left, y + em, strong) +
            drawSlot(notchOf(setting[letter]), left, y + 1.6 * em, em)
          );
        })
        .join('\n'),
  };
};

/** All seven as they are written. */
const nameSetting = (setting: Setting, naming: NoteNaming): string =>
  SIDES.map((foot) => FEET[foot].map((letter) => nameChange(letter, setting[letter], naming)).join(' ')).join(
    ' | ',
  );

/** Whether a setting shows that pedals stand in different notches. */
const isTelling = (setting: Setting): boolean => new Set(LETTERS.map((letter) => setting[letter])).size > 1;

/**
 * Which foot has which pedals, drawn with one setting, and how the diagram of it is read.
 *
 * @param opening of a piece: its setting is shown, unless all pedals stand alike in it
 */
export const writeFeetAndDiagram = (
  sheet: Sheet,
  naming: NoteNaming,
  opening: Setting | null = null,
): readonly Block[] => {
  const { notes, handouts: words } = wordsOf(sheet);
  const { text } = letteringsOf(sheet);
  const paragraph = (told: string): readonly Block[] =>
    writeParagraph(told, sheet.widthMm, { lettering: text });
  const isOpening = opening !== null && isTelling(opening);
  const setting = isOpening ? opening : pedalsForKey(2, 'major').setting;
  const how = isOpening ? words.setFor.opening : words.setFor.key(notes.major(nameInWords('D', 0, naming)));
  return [
    ...writeHeading(words.twoFeet, sheet),
    ...[
      ...SIDES.flatMap((foot) => paragraph(nameFoot(foot, naming, sheet))),
      emptySpace(0.6 * sheet.emMm),
    ].map(withPicture),
    drawPedals(setting, naming, sheet),
    ...paragraph(words.twoFeetLegend(how)),
    ...writeHeading(words.diagram, sheet),
    ...drawSettingWide(setting, naming, DIAGRAM_SHARE * sheet.widthMm),
    ...paragraph(words.diagramLegend(nameSetting(setting, naming))),
  ];
};

/** What tells of a picture stands on its page. */
const withPicture = (block: Block): Block => ({ ...block, keepsWithNext: true });

const explainMechanism = (naming: NoteNaming): WallTable => ({
  sheets: 1,
  write: (sheet) => {
    const { handouts: words } = wordsOf(sheet);
    const { text } = letteringsOf(sheet);
    return {
      blocks: [
        ...writeHead(words.mechanism, words.mechanismLegend, sheet),
        ...writeHeading(words.positions, sheet),
        drawPositions('C', naming, sheet),
        ...writeParagraph(words.positionsLegend, sheet.widthMm, { lettering: text }),
      ],
      repeated: null,
      leastWidthMm: POSITIONS_EM * sheet.emMm,
    };
  },
});

/** On a sheet of its own: beside the three positions all would be small. */
const explainFeet = (naming: NoteNaming): WallTable => ({
  sheets: 1,
  write: (sheet) => ({
    blocks: [writeTitle(wordsOf(sheet).handouts.mechanism, sheet), ...writeFeetAndDiagram(sheet, naming)],
    repeated: null,
    leastWidthMm: PEDALS_EM * sheet.emMm,
  }),
});

/** The strings that no pedal moves, harp by harp. */
const tabulateFixedStrings = (naming: NoteNaming): WallTable => ({
  sheets: 1,
  write: (sheet) => {
    const words = wordsOf(sheet);
    const { fixed: title, fixedHeads: heads, fixedLegend, noFixed, pedalHarp } = words.handouts;
    const nameString = (string: HarpString): string => namePitch({ ...string, alter: 0 }, naming);
    const rows = HARP_NAMES.flatMap((name) => {
      const profile = HARPS[name];
      if (profile.kind !== 'pedal') return [];
      const strings = listStrings(profile);
      const fixed = strings.filter((string) => isFixedString(profile, string)).map(nameString);
      return [
        [
          `${strings.length}`,
          `${nameString(profile.lowest)}–${nameString(profile.highest)}`,
          fixed.length === 0 ? noFixed : fixed.join(', '),
          pedalHarp(strings.length, profile.name),
        ],
      ];
    });
    const {
      head,
      rows: set,
      leastWidthMm,
    } = setTable({ heads: [heads.strings, heads.range, heads.fixed, heads.harp], rows }, sheet);
    return {
      blocks: [...writeHead(title, withOctaves(fixedLegend, naming, words), sheet), head, ...set],
      repeated: head,
      leastWidthMm,
    };
  },
});

/** How pedals and discs work. */
export const writePedals: WriteHandout = (naming) => [
  explainMechanism(naming),
  explainFeet(naming),
  tabulateFixedStrings(naming),
];
