import { type Block, baselineOf, heightOfLines } from './block.ts';
import { drawLine, type Stroke } from './ink.ts';
import { letteringsOf, type Sheet } from './sheet.ts';
import { breakWords, drawWords, type Lettering, widthOfWords } from './words.ts';

/** A table in words. The last column takes what room the others leave, and its texts are broken into lines. */
export interface Table {
  readonly heads: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

const GAP_EM = 1;
/** Above and below the text of a row, in ems. */
const ROW_AIR_EM = 0.18;

/** In how many lines a table sets its longest text, where its letters are as large as can be. */
const MOST_LINES = 2;

/**
 * A table as blocks: its head, to be repeated on each sheet, and its rows.
 *
 * @returns with the width in which no word is broken, and no text in more than a few lines
 */
export const setTable = (
  { heads, rows }: Table,
  sheet: Sheet,
): { readonly head: Block; readonly rows: readonly Block[]; readonly leastWidthMm: number } => {
  const { text, strong } = letteringsOf(sheet);
  const lefts = leftEdges({ heads, rows }, sheet, text, strong);
  const rest = sheet.widthMm - lefts.at(-1)!;
  const setRow = (cells: readonly string[], lettering: Lettering, rule: Stroke): Block => {
    const lines = breakWords(cells.at(-1)!, rest, lettering);
    const air = ROW_AIR_EM * sheet.emMm;
    const heightMm = heightOfLines(Math.max(1, lines.length), lettering) + 2 * air;
    return {
      heightMm,
      draw: (x, y) => {
        const first = y + air + baselineOf(0, lettering);
        const fixed = cells.slice(0, -1).map((cell, i) => drawWords(cell, x + lefts[i]!, first, lettering));
        const last = lines.map((line, i) =>
          drawWords(line, x + lefts.at(-1)!, y + air + baselineOf(i, lettering), lettering),
        );
        const under = [
          [x, y + heightMm],
          [x + sheet.widthMm, y + heightMm],
        ] as const;
        return [...fixed, ...last, drawLine(under, rule)].join('');
      },
    };
  };
  return {
    head: { ...setRow(heads, strong, { widthMm: 0.085 * sheet.emMm }), keepsWithNext: true },
    // No row goes on alone to a further sheet.
    rows: rows.map((row, i) => ({
      ...setRow(row, text, { widthMm: 0.03 * sheet.emMm, colour: '#999' }),
      keepsWithNext: i === rows.length - 2,
    })),
    leastWidthMm:
      lefts.at(-1)! +
      leastFor(
        [heads, ...rows].map((row) => row.at(-1)!),
        strong,
      ),
  };
};

/** The width that texts need which are broken into lines. */
const leastFor = (texts: readonly string[], lettering: Lettering): number => {
  const words = texts.flatMap((text) => text.split(' '));
  const widest = (each: readonly string[]): number =>
    Math.max(...each.map((text) => widthOfWords(text, lettering)));
  // Lines are not equally long: a fifth more.
  return Math.max(widest(words), (1.2 * widest(texts)) / MOST_LINES);
};

/** The left edge of each column, all but the last as wide as its widest text. */
const leftEdges = (
  { heads, rows }: Table,
  { emMm }: Sheet,
  text: Lettering,
  strong: Lettering,
): readonly number[] => {
  let left = 0;
  return heads.map((head, i) => {
    const own = left;
    const widest = Math.max(widthOfWords(head, strong), ...rows.map((row) => widthOfWords(row[i]!, text)));
    left += widest + GAP_EM * emMm;
    return own;
  });
};
