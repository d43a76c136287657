import { group } from 'd3-array';
import type { HarpPlan, Setting } from '../../engine/index.ts';
import type { EngravingOptions } from '../engraving-options.ts';
import { writeFeetAndDiagram } from '../handouts/pedals.ts';
import { drawLeverTableAlone } from '../levers/draw-levers.ts';
import { type LeverMarking, leverStart } from '../levers/lever-markings.ts';
import { type Block, writeParagraph } from '../sheets/block.ts';
import { drawingCell } from '../sheets/cells.ts';
import { writeHeading } from '../sheets/headings.ts';
import { letteringsOf, type Sheet } from '../sheets/sheet.ts';
import { wordsOf } from '../words/words.ts';

/** How large the table of the levers is drawn, as a share of the sheet. */
const TABLE_SHARE = 0.35;

/** What the picture shows. */
type Pictured =
  | {
      readonly kind: 'pedal';
      /** How the pedals stand as the piece begins; null where it is for several pieces. */
      readonly opening: Setting | null;
    }
  | ({ readonly kind: 'lever' } & Pick<LeverMarking & { kind: 'levers' }, 'up' | 'levers'>);

/** What has to be explained of the markings of a piece. */
export interface Reading {
  readonly pictured: Pictured;
  readonly signs: Pick<
    EngravingOptions,
    | 'naming'
    | 'language'
    | 'marksAt'
    | 'circleChanged'
    | 'density'
    | 'leverLook'
    | 'leverHands'
    | 'stringColours'
    | 'beatCounts'
  >;
}

/** What a study edition has to explain; null where that is not wished. */
export const readingOf = (harp: HarpPlan, engraving: EngravingOptions): Reading | null => {
  if (!engraving.legend) return null;
  const { naming, language, marksAt, circleChanged, density } = engraving;
  const { leverLook, leverHands, stringColours, beatCounts } = engraving;
  const { up, levers } = harp.kind === 'lever' ? leverStart(harp) : { up: [], levers: [] };
  return {
    pictured:
      harp.kind === 'pedal' ? { kind: 'pedal', opening: harp.plan.initial } : { kind: 'lever', up, levers },
    signs: {
      ...{ naming, language, marksAt, circleChanged, density },
      ...{ leverLook, leverHands, stringColours, beatCounts },
    },
  };
};

/** What has to be explained to someone who plays several pieces: each harp once, and each way of printing. */
export const readingsOfSet = (readings: readonly (Reading | null)[], sheet: Sheet): readonly Reading[] => {
  const told = readings.filter((each) => each !== null);
  const alike = group(told, (reading) => {
    const { pictured } = reading;
    const harp = pictured.kind === 'pedal' ? pictured.kind : pictured.levers;
    return JSON.stringify([harp, tellSigns(reading, sheet)]);
  });
  return [...alike.values()].map(([first]) => ({
    ...first!,
    pictured: first!.pictured.kind === 'pedal' ? { kind: 'pedal', opening: null } : first!.pictured,
  }));
};

/** How the markings are read: the pedals or the levers in a picture, and each sign that the pages have. */
export const writeReading = (shown: Reading, sheet: Sheet): readonly Block[] => {
  const { text } = letteringsOf(sheet);
  const { reading } = wordsOf(sheet);
  const { pictured, signs } = shown;
  const picture =
    pictured.kind === 'pedal'
      ? writeFeetAndDiagram(sheet, signs.naming, pictured.opening)
      : drawLevers(pictured, signs, sheet);
  return [
    ...picture,
    ...writeHeading(reading.onThePages, sheet),
    ...tellSigns(shown, sheet).flatMap((told) =>
      writeParagraph(told, sheet.widthMm, { lettering: text, indentMm: 1.2 * sheet.emMm, mark: '•' }),
    ),
  ];
};

const drawLevers = (
  pictured: Pictured & { readonly kind: 'lever' },
  signs: Reading['signs'],
  sheet: Sheet,
): readonly Block[] => {
  const { text } = letteringsOf(sheet);
  const { reading } = wordsOf(sheet);
  const table = drawLeverTableAlone(pictured, signs);
  return [
    drawingCell(table, (TABLE_SHARE * sheet.widthMm) / table.box.widthVu),
    ...writeParagraph(reading.leverTable, sheet.widthMm, { lettering: text }),
  ];
};

/** The signs that the pages have, each in a sentence. */
const tellSigns = ({ pictured, signs }: Reading, sheet: Sheet): readonly string[] => {
  const { reading } = wordsOf(sheet);
  const { marksAt, circleChanged, density, leverLook, leverHands, stringColours, beatCounts } = signs;
  const changes = density !== 'settings';
  const own =
    pictured.kind === 'pedal'
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
