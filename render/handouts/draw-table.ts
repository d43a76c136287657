import { ok, type Result } from '../../engine/index.ts';
import { checkEngraving, completeEngraving, type EngravingChoice, paperSize } from '../engraving-options.ts';
import { VERSION_DATE } from '../pages/document-date.ts';
import { renderPdf } from '../pages/pdf.ts';
import { writeParagraph } from '../sheets/block.ts';
import { fillSheets } from '../sheets/fill-sheets.ts';
import { writeHead } from '../sheets/headings.ts';
import { letteringsOf, sheetOn } from '../sheets/sheet.ts';
import { finishSheet } from '../sheets/sheet-page.ts';
import { setTable, type Table } from '../sheets/table.ts';
import { embedFonts, mergeCharacters } from '../text/embed-fonts.ts';
import type { DrawnHandout } from './draw-handout.ts';

/** A table to print: what it is, how it is read, and what stands under it. */
export interface PrintedTable extends Table {
  readonly title: string;
  readonly legend: string;
  /** Paragraphs. */
  readonly below: readonly string[];
}

/**
 * Draws a table on as many sheets as it needs, its head on each.
 *
 * @param choice its paper; the other options have no say
 * @returns the pages and the PDF, or `unsupported` for a paper that cannot be drawn on
 */
export const drawTable = async (
  { title, legend, below, ...table }: PrintedTable,
  choice: Pick<EngravingChoice, 'paper'> = {},
): Promise<Result<DrawnHandout>> => {
  const engraving = checkEngraving(completeEngraving(choice));
  if (!engraving.ok) return engraving;
  const sheet = sheetOn(paperSize(engraving.value.paper));
  const { head, rows } = setTable(table, sheet);
  const { text } = letteringsOf(sheet);
  const blocks = [
    ...writeHead(title, legend, sheet),
    head,
    ...rows,
    ...below.flatMap((each) => writeParagraph(each, sheet.widthMm, { lettering: text })),
  ];
  const drawings = fillSheets({ blocks, repeated: head }, sheet);
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
