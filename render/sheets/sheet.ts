import type { PaperSize } from '../printed/pdf.ts';
import type { Language } from '../words/language.ts';
import type { Lettering } from './words.ts';

/** A sheet of words and drawings. All its lengths go with its em, so that it looks alike on any paper. */
export interface Sheet {
  readonly language: Language;
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

/** The room on A4, in ems. */
const WALL_WIDTH_EM = 52;
const WALL_HEIGHT_EM = 76;

/** A little more than what printers cannot print, so that the foot finds room (by eye). */
const MARGIN_MM = 14;

/** The sheet for a paper: on larger paper more stands on it, on smaller the text shrinks. */
export const sheetOn = (paper: PaperSize, language: Language): Sheet =>
  sheetWith(paper, language, ({ widthMm, heightMm }) =>
    Math.min(USUAL_EM_MM, widthMm / LEAST_WIDTH_EM, heightMm / LEAST_HEIGHT_EM),
  );

/** The sheet for a paper that is hung up: whatever its size, as much stands on it as on A4. */
export const wallSheetOn = (paper: PaperSize, language: Language): Sheet =>
  sheetWith(paper, language, ({ widthMm, heightMm }) =>
    Math.min(widthMm / WALL_WIDTH_EM, heightMm / WALL_HEIGHT_EM),
  );

/** The same sheet with larger letters, and all that goes with them. */
export const enlargeLetters = (sheet: Sheet, times: number): Sheet => ({
  ...sheet,
  emMm: sheet.emMm * times,
});

const sheetWith = (
  paper: PaperSize,
  language: Language,
  emFor: (room: { readonly widthMm: number; readonly heightMm: number }) => number,
): Sheet => {
  const widthMm = paper.widthMm - 2 * MARGIN_MM;
  const heightMm = paper.heightMm - 2 * MARGIN_MM;
  return { language, paper, marginMm: MARGIN_MM, emMm: emFor({ widthMm, heightMm }), widthMm, heightMm };
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
