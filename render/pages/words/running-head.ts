import { escapeText, joinTitles, namePiece, type Titles } from '../../../engine/index.ts';
import { type PageLayout, SVG_UNITS_PER_MM } from '../../layout/breaks/page-layout.ts';
import { shortenTitle } from '../../part/texts/title-lines.ts';

/** Size of its letters in staff heights. */
const HEAD_EM = 0.37;

/** The page's number stands on the same line. */
const HEAD_SHARE = 0.85;

/** What a loose page has to tell: the piece, and whose part it is. */
export const headWords = (titles: Pick<Titles, 'title' | 'subtitle'>, part: string): string => {
  const piece = namePiece(titles);
  return piece === '' ? '' : joinTitles(piece, part);
};

/**
 * These words and the page's number over every page but the first, as the layout writes text, within the margins.
 *
 * @param number empty for none
 */
export const runningHead = (words: string, number: string, layout: PageLayout): string => {
  const widthMm = layout.widthMm - 2 * layout.marginMm;
  const emMm = HEAD_EM * layout.staffMm;
  const size = Math.round(emMm * SVG_UNITS_PER_MM);
  const baseline = Math.round(0.7 * size);
  const text = (x: number, anchor: string, line: string): string =>
    `<text font-size="0px" font-family="Times"><tspan x="${x}" y="${baseline}" text-anchor="${anchor}">` +
    `<tspan font-size="${size}px">${escapeText(line)}</tspan></tspan></text>`;
  const short = shortenTitle(words, { widthMm: HEAD_SHARE * widthMm, emMm });
  return (
    `<g xmlns="http://www.w3.org/2000/svg" class="pgHead">` +
    `${short === '' ? '' : text(0, 'start', short)}${number === '' ? '' : text(Math.round(widthMm * SVG_UNITS_PER_MM), 'end', number)}</g>`
  );
};
