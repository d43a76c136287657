import { escapeText } from '../../engine/index.ts';
import { roundUnits } from '../draw/drawing.ts';
import { type PageLayout, SVG_UNITS_PER_MM } from '../layout/breaks/page-layout.ts';
import { TEXT_FAMILIES } from '../text/fonts.ts';
import { LANGUAGES, type Language } from '../words/language.ts';
import { wordsOf } from '../words/words.ts';
import type { FinishedSystem } from './finish-system.ts';

/** What stands on a page; lengths in the page's units. */
export interface PageContents {
  /** From 1. */
  readonly number: number;
  /** The heading, or the running head. */
  readonly head: string;
  /** What stands in the lower margin; empty for nothing. */
  readonly foot: string;
  /** Of what we say on it. */
  readonly language: Language;
  /** The systems, each moved down by so much. */
  readonly systems: readonly { readonly system: FinishedSystem; readonly down: number }[];
}

/**
 * Writes a page as a standalone SVG document. Its ids follow from what stands on it: the same page is the same text
 * wherever and whenever it is drawn.
 */
export const composePage = (
  { foot, head, language, number, systems }: PageContents,
  layout: PageLayout,
): string => {
  const units = (mm: number): number => Math.round(mm * SVG_UNITS_PER_MM);
  const { enlarged, heightMm, marginMm, widthMm } = layout;
  const bodies = systems.map(
    ({ system, down }) => `<g transform="translate(0, ${Math.round(down)})">${system.body}</g>`,
  );
  return (
    `<svg width="${roundUnits(widthMm * enlarged)}mm" height="${roundUnits(heightMm * enlarged)}mm" version="1.1" xmlns="http://www.w3.org/2000/svg" ` +
    `xmlns:xlink="http://www.w3.org/1999/xlink" overflow="visible" id="page-${number}" lang="${LANGUAGES[language].tag}">` +
    `<desc>${escapeText(wordsOf({ language }).spoken.engravedBy('Verovio'))}</desc><defs>${writeGlyphs(systems, number)}</defs>` +
    `<svg class="definition-scale" color="black" font-family="${TEXT_FAMILIES}" ` +
    `viewBox="0 0 ${units(widthMm)} ${units(heightMm)}">` +
    `<g class="page-margin" transform="translate(${units(marginMm)}, ${units(marginMm)})">` +
    `${head}${ownGlyphs(bodies.join(''), number)}${foot}</g></svg></svg>\n`
  );
};

/** Pages may stand in one document: each has glyphs of its own. */
const glyphId = (code: string, page: number): string => `${code}-${page}`;

const writeGlyphs = (systems: PageContents['systems'], page: number): string => {
  const glyphs = new Map(systems.flatMap(({ system }) => [...system.glyphs]));
  return [...glyphs]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([code, outline]) => `<g id="${glyphId(code, page)}">${outline}</g>`)
    .join('');
};

const ownGlyphs = (body: string, page: number): string =>
  body.replace(
    /(<use xlink:href="#)([0-9A-F]+)-[^"]*"/g,
    (_, start: string, code: string) => `${start}${glyphId(code, page)}"`,
  );
