import { type HarpPlan, stringsWithLevers } from '../../engine/index.ts';
import type { EngravingOptions } from '../engraving-options.ts';
import { writeFeetAndDiagram } from '../handouts/pedals.ts';
import { drawLeverTableAlone } from '../levers/draw-levers.ts';
import { leverStart } from '../levers/lever-markings.ts';
import { type Block, writeParagraph } from '../sheets/block.ts';
import { drawingCell } from '../sheets/cells.ts';
import { writeHeading } from '../sheets/headings.ts';
import { letteringsOf, type Sheet } from '../sheets/sheet.ts';
import { wordsOf } from '../words/words.ts';

/** How large the table of the levers is drawn, as a share of the sheet. */
const TABLE_SHARE = 0.35;

/** How the markings are read: the pedals or the levers in a picture, and each sign that the pages have. */
export const writeReading = (harp: HarpPlan, engraving: EngravingOptions, sheet: Sheet): readonly Block[] => {
  const { text } = letteringsOf(sheet);
  const { reading } = wordsOf(sheet);
  const picture =
    harp.kind === 'pedal'
      ? writeFeetAndDiagram(sheet, engraving.naming, harp.plan.initial)
      : drawLevers(harp, engraving, sheet);
  return [
    ...picture,
    ...writeHeading(reading.onThePages, sheet),
    ...tellSigns(harp, engraving, sheet).flatMap((told) =>
      writeParagraph(told, sheet.widthMm, { lettering: text, indentMm: 1.2 * sheet.emMm, mark: '•' }),
    ),
  ];
};

const drawLevers = (
  harp: HarpPlan & { readonly kind: 'lever' },
  engraving: EngravingOptions,
  sheet: Sheet,
): readonly Block[] => {
  const { text } = letteringsOf(sheet);
  const { reading } = wordsOf(sheet);
  const { up } = leverStart(harp);
  const table = drawLeverTableAlone({ up, levers: stringsWithLevers(harp.profile) }, engraving);
  return [
    drawingCell(table, (TABLE_SHARE * sheet.widthMm) / table.box.widthVu),
    ...writeParagraph(reading.leverTable, sheet.widthMm, { lettering: text }),
  ];
};

/** The signs that the pages have, each in a sentence. */
const tellSigns = (harp: HarpPlan, engraving: EngravingOptions, sheet: Sheet): readonly string[] => {
  const { reading } = wordsOf(sheet);
  const { marksAt, circleChanged, density, leverLook, leverHands, stringColours, beatCounts } = engraving;
  const changes = density !== 'settings';
  const own =
    harp.kind === 'pedal'
      ? [
          ...(density !== 'changes' ? [reading.setting] : []),
          ...(changes ? [reading.change[marksAt], reading.feet] : []),
          ...(circleChanged ? [reading.ring] : []),
          ...(changes && marksAt === 'foot' ? [reading.wedge] : []),
        ]
      : [reading.leverChange[leverLook], ...(leverHands ? [reading.leverHands] : [])];
  return [
    ...own,
    ...(stringColours === 'none' ? [] : [reading.colours[stringColours]]),
    ...(beatCounts === 'none' ? [] : [reading.counts]),
  ];
};
