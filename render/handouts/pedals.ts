import {
  FEET,
  type Foot,
  formatSetting,
  HARP_NAMES,
  HARPS,
  isFixedString,
  LETTERS,
  type Letter,
  listStrings,
  nameOfPosition,
  nameString,
  POSITIONS,
  type Position,
  pedalsForKey,
  type Setting,
  SIDES,
} from '../../engine/index.ts';
import { drawSetting } from '../draw/draw-marking.ts';
import type { NoteNaming } from '../markings/note-names.ts';
import { type Block, emptySpace, writeParagraph } from '../sheets/block.ts';
import { drawingCell } from '../sheets/cells.ts';
import type { Section } from '../sheets/fill-sheets.ts';
import { writeHead, writeHeading } from '../sheets/headings.ts';
import { drawLine, fillCircle, fillRectangle, frameRectangle } from '../sheets/ink.ts';
import { nameChange, nameInWords } from '../sheets/note-words.ts';
import { letteringsOf, type Sheet } from '../sheets/sheet.ts';
import { setTable } from '../sheets/table.ts';
import { drawWords } from '../sheets/words.ts';
import type { WriteHandout } from './handout.ts';
import { PEDAL_HANDOUT_WORDS as WORDS } from './pedal-handout-words.ts';

/** Sizes in ems: the slot of a pedal with its notches, and the string with its discs. */
const SLOT = { height: 6, notch: 1.6, width: 0.9 } as const;
const STRING_EM = 9;
const DISC_EM = 0.75;
const PIN_EM = 0.62;

/** The three positions are drawn so much larger than the seven pedals. */
const POSITIONS_ENLARGED = 1.5;
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
  const step = sheet.widthMm / POSITIONS.length;
  return {
    heightMm: STRING_EM * picture + 5.4 * em,
    draw: (x, y) =>
      POSITIONS.map((position, i) => {
        const left = x + i * step;
        return [
          drawWords(nameOfPosition(position), left, y + em, strong),
          drawWords(WORDS.gives(nameChange(letter, position, naming)), left, y + 2.3 * em, text),
          drawSlot(notchOf(position), left, y + 3.4 * em + 1.2 * picture, picture),
          drawString(discsHolding(position), left + 5 * picture, y + 3.2 * em, picture),
          drawWords(WORDS.notch[position], left, y + STRING_EM * picture + 4.6 * em, text),
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

const nameFoot = (foot: Foot, naming: NoteNaming): string =>
  WORDS.foot[foot](FEET[foot].map((letter) => nameInWords(letter, 0, naming)).join(', '));

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

const writeMechanism = (sheet: Sheet, naming: NoteNaming): Section => {
  const { text } = letteringsOf(sheet);
  const paragraph = (words: string): readonly Block[] =>
    writeParagraph(words, sheet.widthMm, { lettering: text });
  const { setting } = pedalsForKey(2, 'major');
  const toDraw = { setting, ringed: [], naming };
  const drawn = (['diagram', 'letters-one-row'] as const).map((look): Block => {
    const drawing = drawSetting(toDraw, look);
    return drawingCell(drawing, (DIAGRAM_SHARE * sheet.widthMm) / drawing.box.widthVu);
  });
  return {
    blocks: [
      ...writeHead(WORDS.title, WORDS.legend, sheet),
      ...writeHeading(WORDS.positions, sheet),
      drawPositions('C', naming, sheet),
      ...paragraph(WORDS.positionsLegend),
      ...writeHeading(WORDS.feet, sheet),
      ...SIDES.flatMap((foot) => paragraph(nameFoot(foot, naming))),
      emptySpace(0.6 * sheet.emMm),
      drawPedals(setting, naming, sheet),
      ...paragraph(WORDS.feetLegend(nameInWords('D', 0, naming))),
      ...writeHeading(WORDS.diagram, sheet),
      ...drawn,
      ...paragraph(WORDS.diagramLegend(formatSetting(setting))),
    ],
    repeated: null,
  };
};

/** The strings that no pedal moves, harp by harp. */
const writeFixedStrings = (sheet: Sheet): Section => {
  const rows = HARP_NAMES.flatMap((name) => {
    const profile = HARPS[name];
    if (profile.kind !== 'pedal') return [];
    const strings = listStrings(profile);
    const fixed = strings.filter((string) => isFixedString(profile, string)).map(nameString);
    return [
      [
        `${strings.length}`,
        `${nameString(profile.lowest)}–${nameString(profile.highest)}`,
        fixed.length === 0 ? WORDS.none : fixed.join(', '),
        profile.name,
      ],
    ];
  });
  const { head, rows: set } = setTable({ heads: WORDS.fixedHeads, rows }, sheet);
  return {
    blocks: [...writeHead(WORDS.fixed, WORDS.fixedLegend, sheet), head, ...set],
    repeated: head,
  };
};

/** How pedals and discs work. */
export const writePedals: WriteHandout = (sheet, naming) => [
  writeMechanism(sheet, naming),
  writeFixedStrings(sheet),
];
