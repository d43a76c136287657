import type { Drawing } from '../draw/drawing.ts';
import { type Block, baselineOf, heightOfLines } from './block.ts';
import { drawLine, placeDrawing } from './ink.ts';
import { letteringsOf, type Sheet } from './sheet.ts';
import { drawWords, type Lettering, widthOfWords } from './words.ts';

/** A small thing in a grid. */
export interface Cell {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly draw: (x: number, y: number) => string;
}

export const wordsCell = (text: string, lettering: Lettering): Cell => ({
  widthMm: widthOfWords(text, lettering),
  heightMm: heightOfLines(1, lettering),
  draw: (x, y) => drawWords(text, x, y + baselineOf(0, lettering), lettering),
});

export const drawingCell = (drawing: Drawing, mmPerVu: number): Cell => ({
  widthMm: drawing.box.widthVu * mmPerVu,
  heightMm: drawing.box.heightVu * mmPerVu,
  draw: (x, y) => placeDrawing(drawing, x, y, mmPerVu),
});

/** Cells one under the other, their left edges in line. */
export const stackCells = (cells: readonly Cell[]): Cell => ({
  widthMm: widestOf(cells),
  heightMm: cells.reduce((sum, { heightMm }) => sum + heightMm, 0),
  draw: (x, y) => {
    let top = y;
    return cells
      .map(({ draw, heightMm }) => {
        const drawn = draw(x, top);
        top += heightMm;
        return drawn;
      })
      .join('');
  },
});

/** Cells side by side without a gap, their upper edges in line. */
export const besideCells = (cells: readonly Cell[]): Cell => ({
  widthMm: cells.reduce((sum, { widthMm }) => sum + widthMm, 0),
  heightMm: Math.max(...cells.map(({ heightMm }) => heightMm)),
  draw: (x, y) => {
    let left = x;
    return cells
      .map(({ draw, widthMm }) => {
        const drawn = draw(left, y);
        left += widthMm;
        return drawn;
      })
      .join('');
  },
});

/** Above and below the cells of a row, and at least between columns, in ems. */
const ROW_AIR_EM = 0.35;
const GAP_EM = 1;

/**
 * A table of cells: its head, and its rows parted by lines; what the columns leave of the width goes between them.
 *
 * @returns with the width that it needs at the least
 */
export const setGrid = (
  heads: readonly string[],
  rows: readonly (readonly Cell[])[],
  sheet: Sheet,
): { readonly head: Block; readonly rows: readonly Block[]; readonly leastWidthMm: number } => {
  const { strong } = letteringsOf(sheet);
  const em = sheet.emMm;
  const top = heads.map((head) => wordsCell(head, strong));
  const widths = top.map(({ widthMm }, i) => Math.max(widthMm, ...rows.map((row) => row[i]!.widthMm)));
  const taken = widths.reduce((sum, width) => sum + width, 0);
  const gap = Math.max(GAP_EM * em, (sheet.widthMm - taken) / Math.max(1, widths.length - 1));
  const lefts = widths.map((_, i) => widths.slice(0, i).reduce((sum, width) => sum + width + gap, 0));
  const setRow = (cells: readonly Cell[], ruleEm: number): Block => {
    const inner = Math.max(...cells.map(({ heightMm }) => heightMm));
    const heightMm = inner + 2 * ROW_AIR_EM * em;
    return {
      heightMm,
      draw: (x, y) => {
        const drawn = cells.map((cell, i) => cell.draw(x + lefts[i]!, y + (heightMm - cell.heightMm) / 2));
        const under = [
          [x, y + heightMm],
          [x + sheet.widthMm, y + heightMm],
        ] as const;
        return drawn.join('') + drawLine(under, { widthMm: ruleEm * em, colour: '#777' });
      },
    };
  };
  return {
    head: { ...setRow(top, 0.08), keepsWithNext: true },
    rows: rows.map((row) => setRow(row, 0.03)),
    leastWidthMm: taken + GAP_EM * em * (widths.length - 1),
  };
};

/** The width that cells need to stand one under the other. */
export const widestOf = (cells: readonly Cell[]): number =>
  Math.max(0, ...cells.map(({ widthMm }) => widthMm));

/**
 * Cells side by side in as many equal columns as there is room for, row under row.
 *
 * @param widest the cell that a column must have room for, in millimetres
 */
export const flowCells = (
  cells: readonly Cell[],
  sheet: Sheet,
  widest: number = widestOf(cells),
): readonly Block[] => {
  if (cells.length === 0) return [];
  const em = sheet.emMm;
  const columns = Math.max(1, Math.floor((sheet.widthMm + GAP_EM * em) / (widest + GAP_EM * em)));
  const step = (sheet.widthMm + GAP_EM * em) / columns;
  return Array.from({ length: Math.ceil(cells.length / columns) }, (_, row): Block => {
    const own = cells.slice(row * columns, (row + 1) * columns);
    return {
      heightMm: Math.max(...own.map(({ heightMm }) => heightMm)) + 2 * ROW_AIR_EM * em,
      draw: (x, y) => own.map((cell, i) => cell.draw(x + i * step, y + ROW_AIR_EM * em)).join(''),
    };
  });
};
