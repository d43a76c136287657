import type { PaperSize } from '../pages/pdf.ts';
import type { Lettering } from './words.ts';

/** A sheet of words and drawings. All its lengths go with its em, so that it looks alike on any paper. */
export interface Sheet {
  readonly paper: PaperSize;
  readonly marginMm: number;
  /** The size of the text. */
  readonly emMm: number;
  readonly widthMm: number;
  readonly heightMm: number;
}

/** The text on A4, in millimetres, and the least room that is wanted for it, in ems. */
const USUAL_EM_MM = 3.5;
const LEAST_WIDTH_EM = 50;
const LEAST_HEIGHT_EM = 50;

/** A little more than what printers cannot print, so that the foot finds room (by eye). */
const MARGIN_MM = 14;

/** The sheet for a paper. */
export const sheetOn = (paper: PaperSize): Sheet => {
  const widthMm = paper.widthMm - 2 * MARGIN_MM;
  const heightMm = paper.heightMm - 2 * MARGIN_MM;
  const emMm = Math.min(USUAL_EM_MM, widthMm / LEAST_WIDTH_EM, heightMm / LEAST_HEIGHT_EM);
  return { paper, marginMm: MARGIN_MM, emMm, widthMm, heightMm };
};

/** The letterings of a sheet. */
export const letteringsOf = ({ emMm }: Pick<Sheet, 'emMm'>) =>
  ({
    title: { sizeMm: 2.2 * emMm, face: 'bold' },
    section: { sizeMm: 1.6 * emMm, face: 'bold' },
    heading: { sizeMm: 1.15 * emMm, face: 'bold' },
    text: { sizeMm: emMm, face: 'regular' },
    strong: { sizeMm: emMm, face: 'bold' },
    aside: { sizeMm: emMm, face: 'italic' },
    small: { sizeMm: 0.82 * emMm, face: 'regular' },
    smallStrong: { sizeMm: 0.82 * emMm, face: 'bold' },
  }) as const satisfies Readonly<Record<string, Lettering>>;
