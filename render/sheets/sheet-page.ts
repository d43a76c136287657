import type { PaperSize } from '../printed/pdf.ts';
import { type FinishedPage, finishPage } from '../text/finish-page.ts';
import { LANGUAGES } from '../words/language.ts';
import { unitsOf } from './ink.ts';
import { letteringsOf, type Sheet } from './sheet.ts';
import { drawWords, shortenWords, widthOfWords } from './words.ts';

/** What stands at the foot of a sheet. */
export interface Foot {
  readonly words: string;
  /** The number of the page. */
  readonly page: string;
}

/** A sheet as a page; `foot` is null for one that is bound with others and gets its foot there. */
export const finishSheet = (drawing: string, sheet: Sheet, foot: Foot | null): FinishedPage =>
  finishPage(`${openSvg(sheet)}${drawing}${foot === null ? '' : drawFoot(sheet, foot)}</svg>`);

/** A page with a drawing over it. */
export const layOver = (page: string, overlay: string): string => {
  const end = page.lastIndexOf('</svg>');
  return `${page.slice(0, end)}${overlay}\n${page.slice(end)}`;
};

const openSvg = ({ language, paper: { widthMm, heightMm } }: Sheet): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" lang="${LANGUAGES[language].tag}" width="${widthMm}mm" height="${heightMm}mm" ${viewBoxOf({ widthMm, heightMm })}>`;

const viewBoxOf = ({ widthMm, heightMm }: PaperSize): string =>
  `viewBox="0 0 ${unitsOf(widthMm)} ${unitsOf(heightMm)}"`;

/** A drawing that covers a page of the music, in the sheet's own coordinates. */
export const overlaySheet = (drawing: string, { paper }: Sheet): FinishedPage =>
  finishPage(
    `<svg xmlns="http://www.w3.org/2000/svg" class="foot" width="${paper.widthMm}mm" height="${paper.heightMm}mm" ${viewBoxOf(paper)}>${drawing}</svg>`,
  );

/** From the edge of the paper: above what printers leave white, under the foot that pages of music have themselves. */
const FOOT_MM = 5;

/** The foot in the lower margin: words on the left, the page's number on the right. */
export const drawFoot = (sheet: Sheet, { words, page }: Foot): string => {
  const { small } = letteringsOf(sheet);
  const baseline = sheet.paper.heightMm - FOOT_MM;
  const right = sheet.marginMm + sheet.widthMm;
  const room = sheet.widthMm - widthOfWords(page, small) - sheet.emMm;
  return (
    drawWords(shortenWords(words, room, small), sheet.marginMm, baseline, small) +
    drawWords(page, right, baseline, small, 'end')
  );
};
