import { ok, type Result } from '../../engine/index.ts';
import { checkEngraving, completeEngraving, type EngravingChoice, paperSize } from '../engraving-options.ts';
import { VERSION_DATE } from '../pages/document-date.ts';
import { renderPdf } from '../pages/pdf.ts';
import { fillSheets } from '../sheets/fill-sheets.ts';
import { wallSheetOn } from '../sheets/sheet.ts';
import { finishSheet } from '../sheets/sheet-page.ts';
import { embedFonts, mergeCharacters } from '../text/embed-fonts.ts';
import { writeDoubledStrings } from './doubled-strings.ts';
import { writeGlissandi } from './glissandi.ts';
import type { WriteHandout } from './handout.ts';
import { HANDOUTS, type HandoutName } from './handout-words.ts';
import { writeKeys } from './keys.ts';

const WRITERS: Readonly<Record<HandoutName, WriteHandout>> = {
  keys: writeKeys,
  glissandi: writeGlissandi,
  'doubled-strings': writeDoubledStrings,
};

/** A wall chart, drawn. */
export interface DrawnHandout {
  /** Standalone SVG documents, one a page. */
  readonly pages: readonly string[];
  readonly pdf: Uint8Array;
}

/**
 * Draws a wall chart: nothing in it is written by hand but its words.
 *
 * @param choice its paper and note names; the other options have no say
 * @returns the pages and the PDF, or `unsupported` for a paper that cannot be drawn on
 */
export const drawHandout = async (
  name: HandoutName,
  choice: Pick<EngravingChoice, 'paper' | 'naming'> = {},
): Promise<Result<DrawnHandout>> => {
  const engraving = checkEngraving(completeEngraving(choice));
  if (!engraving.ok) return engraving;
  const { naming, paper } = engraving.value;
  const sheet = wallSheetOn(paperSize(paper));
  const { title } = HANDOUTS[name];
  const drawings = WRITERS[name](sheet, naming).flatMap((section) => fillSheets(section, sheet));
  const finished = drawings.map((drawing, i) =>
    finishSheet(drawing, sheet, { words: title, page: `${i + 1}/${drawings.length}` }),
  );
  const pages = finished.map(({ svg }) => svg);
  const bookmarks = [{ text: title, page: 0, topMm: 0, level: 1 as const }];
  return ok({
    pages: await embedFonts(pages, mergeCharacters(finished.map(({ characters }) => characters))),
    pdf: renderPdf(pages, sheet.paper, { title, author: '', date: VERSION_DATE }, bookmarks),
  });
};
