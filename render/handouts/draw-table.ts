import { ok, type Result } from '../../engine/index.ts';
import { checkEngraving, completeEngraving, type EngravingChoice, paperSize } from '../engraving-options.ts';
import { type BoundSheets, bindSheets } from '../sheets/bind-sheets.ts';
import { type Block, emptySpace, writeParagraph } from '../sheets/block.ts';
import { fillSheets } from '../sheets/fill-sheets.ts';
import { writeHead } from '../sheets/headings.ts';
import { letteringsOf, type Sheet, sheetOn } from '../sheets/sheet.ts';
import { setTable, type Table } from '../sheets/table.ts';

/** A table to print: what it is, how it is read, and what stands under it. */
export interface PrintedTable extends Table {
  readonly title: string;
  readonly legend: string;
  /** Paragraphs. */
  readonly below: readonly string[];
}

const ABOVE_PARAGRAPH_EM = 0.6;

/**
 * Draws a table on as many sheets as it needs, its head on each.
 *
 * @param choice its paper; the other options have no say
 * @returns the pages and the PDF, or `unsupported` for a paper that cannot be drawn on
 */
export const drawTable = async (
  table: PrintedTable,
  choice: Pick<EngravingChoice, 'paper'> = {},
): Promise<Result<BoundSheets>> => {
  const engraving = checkEngraving(completeEngraving(choice));
  if (!engraving.ok) return engraving;
  const sheet = sheetOn(paperSize(engraving.value.paper), 'english');
  const { blocks, head } = writePrintedTable(table, sheet);
  const drawings = fillSheets({ blocks, repeated: head }, sheet);
  return ok(await bindSheets(drawings, sheet, table.title));
};

/** The table as blocks, what stands over and under it among them; its head comes again on every sheet. */
export const writePrintedTable = (
  { title, legend, below, ...table }: PrintedTable,
  sheet: Sheet,
): { readonly blocks: readonly Block[]; readonly head: Block } => {
  const { head, rows } = setTable(table, sheet);
  const { text } = letteringsOf(sheet);
  const blocks = [
    ...writeHead(title, legend, sheet),
    head,
    ...rows,
    ...below.flatMap((each) => [
      emptySpace(ABOVE_PARAGRAPH_EM * text.sizeMm),
      ...writeParagraph(each, sheet.widthMm, { lettering: text }),
    ]),
  ];
  return { blocks, head };
};
