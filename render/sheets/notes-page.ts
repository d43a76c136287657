import { wordsOf } from '../words/words.ts';
import { type Block, drawBlocks, writeParagraph } from './block.ts';
import { drawLine } from './ink.ts';
import { letteringsOf, type Sheet } from './sheet.ts';

/** From one line to write on to the next. */
const RULE_MM = 9;

/** A sheet to write on, where one is wanted so that the next begins on a right-hand page. */
export const drawNotesPage = (sheet: Sheet): string => {
  const { section } = letteringsOf(sheet);
  const head = writeParagraph(wordsOf(sheet).study.notes, sheet.widthMm, { lettering: section });
  const left = sheet.heightMm - head.reduce((sum, { heightMm }) => sum + heightMm, 0);
  const rules = Array.from(
    { length: Math.floor(left / RULE_MM) },
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
  return drawBlocks([...head, ...rules], sheet.marginMm, sheet.marginMm);
};
