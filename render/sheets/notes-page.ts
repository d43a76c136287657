import { wordsOf } from '../words/words.ts';
import { type Block, drawBlocks, heightOf, writeParagraph } from './block.ts';
import { drawLine } from './ink.ts';
import { letteringsOf, type Sheet } from './sheet.ts';

/** From one line to write on to the next. */
const RULE_MM = 9;

/** A sheet to write on, where one is wanted so that the next begins on a right-hand page. */
export const drawNotesPage = (sheet: Sheet): string =>
  drawBlocks(writeNotesLines(sheet, sheet.heightMm), sheet.marginMm, sheet.marginMm);

/** A heading and lines to write on, as many as a height has room for. */
export const writeNotesLines = (sheet: Sheet, heightMm: number): readonly Block[] => {
  const { section, heading } = letteringsOf(sheet);
  const lettering = heightMm === sheet.heightMm ? section : heading;
  const head = writeParagraph(wordsOf(sheet).study.notes, sheet.widthMm, { lettering });
  const rules = Array.from(
    { length: Math.max(0, Math.floor((heightMm - heightOf(head)) / RULE_MM)) },
    (): Block => ({
      heightMm: RULE_MM,
      draw: (x, y) => {
        const rule = [
          [x, y + RULE_MM],
          [x + sheet.widthMm, y + RULE_MM],
        ] as const;
        return drawLine(rule, { widthMm: 0.12, colour: '#999' });
      },
    }),
  );
  return [...head, ...rules];
};
