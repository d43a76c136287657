import { VERSION_DATE } from '../printed/document-date.ts';
import { renderPdf } from '../printed/pdf.ts';
import { embedFonts, mergeCharacters } from '../text/embed-fonts.ts';
import type { Sheet } from './sheet.ts';
import { finishSheet } from './sheet-page.ts';

/** Sheets of words and drawings, ready to print. */
export interface BoundSheets {
  /** Standalone SVG documents, one a page. */
  readonly pages: readonly string[];
  readonly pdf: Uint8Array;
}

/** Finishes sheets that stand by themselves: the title and the number of the sheet at the foot of each. */
export const bindSheets = async (
  drawings: readonly string[],
  sheet: Sheet,
  title: string,
): Promise<BoundSheets> => {
  const finished = drawings.map((drawing, i) =>
    finishSheet(drawing, sheet, { words: title, page: `${i + 1}/${drawings.length}` }),
  );
  const pages = finished.map(({ svg }) => svg);
  const bookmarks = [{ text: title, page: 0, topMm: 0, level: 1 as const }];
  return {
    pages: await embedFonts(pages, mergeCharacters(finished.map(({ characters }) => characters))),
    pdf: renderPdf(
      pages,
      sheet.paper,
      { title, author: '', date: VERSION_DATE, language: sheet.language },
      bookmarks,
    ),
  };
};
