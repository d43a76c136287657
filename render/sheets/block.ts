import { breakWords, drawWords, type Lettering } from './words.ts';

/** Something that stands on a sheet across its whole width and is not broken over two. */
export interface Block {
  readonly heightMm: number;
  /** @returns SVG, for the top left corner of its place in millimetres */
  readonly draw: (x: number, y: number) => string;
  /** A heading: never the last thing on a sheet that goes on. */
  readonly keepsWithNext?: boolean;
}

/** Blocks one under the other. */
export const drawBlocks = (blocks: readonly Block[], x: number, y: number): string => {
  let top = y;
  return blocks
    .map(({ draw, heightMm }) => {
      const drawn = draw(x, top);
      top += heightMm;
      return drawn;
    })
    .join('\n');
};

/** How high blocks are under one another. */
export const heightOf = (blocks: readonly Block[]): number =>
  blocks.reduce((sum, { heightMm }) => sum + heightMm, 0);

export const emptySpace = (heightMm: number): Block => ({ heightMm, draw: () => '' });

/** From one baseline to the next, in ems. */
const LINE_EM = 1.32;
/** From the top of a line to its baseline, in ems. */
const BASELINE_EM = 0.98;

export interface LineStyle {
  readonly lettering: Lettering;
  readonly indentMm?: number;
  /** Put before the first line, within the indent. */
  readonly mark?: string;
  readonly keepsWithNext?: boolean;
}

/** The height of so many lines. */
export const heightOfLines = (lines: number, { sizeMm }: Lettering): number => lines * LINE_EM * sizeMm;

/** Where the baseline of a line is, from the top of its block. */
export const baselineOf = (line: number, { sizeMm }: Lettering): number =>
  (line * LINE_EM + BASELINE_EM) * sizeMm;

/** A paragraph: a block for each line, so that a long one goes on over the page. */
export const writeParagraph = (
  text: string,
  widthMm: number,
  { lettering, indentMm = 0, mark = '', keepsWithNext = false }: LineStyle,
): readonly Block[] =>
  breakWords(text, widthMm - indentMm, lettering).map((line, i) => ({
    heightMm: heightOfLines(1, lettering),
    keepsWithNext,
    draw: (x, y) => {
      const baseline = y + baselineOf(0, lettering);
      const leading = i === 0 ? drawWords(mark, x, baseline, lettering) : '';
      return leading + drawWords(line, x + indentMm, baseline, lettering);
    },
  }));
