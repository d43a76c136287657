import { type Block, baselineOf, heightOfLines } from '../sheets/block.ts';
import { writeHead } from '../sheets/headings.ts';
import { letteringsOf, type Sheet } from '../sheets/sheet.ts';
import { drawWords, shortenWords } from '../sheets/words.ts';
import { wordsOf } from '../words/words.ts';

/** A chapter where it stands. */
export interface ContentsEntry {
  readonly name: string;
  /** Index of the page. */
  readonly page: number;
  readonly topMm: number;
  /** What stands under it in the part, such as movements. */
  readonly within?: readonly Pick<ContentsEntry, 'name' | 'page'>[];
}

/** How far what stands within a chapter is indented, and how much of the line a name may take. */
const INDENT_EM = 1.2;
const LONGEST = 0.85;

/** The chapters with the numbers of their pages. */
export const writeContents = (entries: readonly ContentsEntry[], sheet: Sheet): readonly Block[] => {
  const { text } = letteringsOf(sheet);
  const listed = entries.flatMap((entry) => [
    { ...entry, indentMm: 0 },
    ...(entry.within ?? []).map((each) => ({ ...each, indentMm: INDENT_EM * sheet.emMm })),
  ]);
  const lines = listed.map(
    ({ indentMm, name, page }): Block => ({
      heightMm: heightOfLines(1.2, text),
      draw: (x, y) => {
        const baseline = y + baselineOf(0, text);
        return (
          drawWords(shortenWords(name, LONGEST * sheet.widthMm, text), x + indentMm, baseline, text) +
          drawWords(`${page + 1}`, x + sheet.widthMm, baseline, text, 'end')
        );
      },
    }),
  );
  return [...writeHead(wordsOf(sheet).study.contents, null, sheet), ...lines];
};
