import { type Block, baselineOf, heightOfLines } from '../sheets/block.ts';
import { writeHead } from '../sheets/headings.ts';
import { letteringsOf, type Sheet } from '../sheets/sheet.ts';
import { drawWords } from '../sheets/words.ts';
import { wordsOf } from '../words/words.ts';

/** A chapter where it stands. */
export interface ContentsEntry {
  readonly name: string;
  /** Index of the page. */
  readonly page: number;
  readonly topMm: number;
}

/** The chapters with the numbers of their pages. */
export const writeContents = (entries: readonly ContentsEntry[], sheet: Sheet): readonly Block[] => {
  const { text } = letteringsOf(sheet);
  const lines = entries.map(
    ({ name, page }): Block => ({
      heightMm: heightOfLines(1.2, text),
      draw: (x, y) => {
        const baseline = y + baselineOf(0, text);
        return (
          drawWords(name, x, baseline, text) +
          drawWords(`${page + 1}`, x + sheet.widthMm, baseline, text, 'end')
        );
      },
    }),
  );
  return [...writeHead(wordsOf(sheet).study.contents, null, sheet), ...lines];
};
