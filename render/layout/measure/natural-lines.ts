import { parsePage } from '../../text/finish-page.ts';
import { type PageLayout, svgUnitsPerVu } from '../breaks/page-layout.ts';
import type { LayoutDocument } from '../document/layout-document.ts';
import type { PreparedPart } from '../document/prepared-part.ts';
import type { Drawer } from '../drawer/drawer.ts';
import { createMemory, drawingKey, type Memory } from '../drawer/drawing-memory.ts';
import { outlineDocument } from '../lines/document-outline.ts';
import { divideIntoLines } from '../lines/line-documents.ts';
import type { Stepwise } from '../stepwise.ts';
import { measureBars, type NaturalLine } from './measure-bars.ts';

/** The layout of one line takes more than twice as long when the line is twice as long, but each load costs something too. */
export const BARS_OF_PIECE = 36;

/** A part is measured in some few ways at a time: by the bars of rest that are joined. */
const MOST_OF_PART = 3;

const KNOWN = new WeakMap<PreparedPart, Memory<readonly NaturalLine[]>>();

/**
 * Lays music out without breaks, in pieces, and measures it. What was measured before is not laid out again.
 *
 * @param begun bars (indices) that no joined rest may hide
 * @yields all that is measured so far, while there is more
 * @returns null where the layout cannot load it
 */
export function* measureNaturalLines(
  drawer: Drawer,
  { part, unbroken }: LayoutDocument,
  begun: readonly number[],
  layout: PageLayout,
): Stepwise<readonly NaturalLine[], readonly NaturalLine[] | null> {
  const { key, write } = unbroken(begun);
  const measured = KNOWN.get(part) ?? createMemory<readonly NaturalLine[]>(MOST_OF_PART, () => 1);
  KNOWN.set(part, measured);
  const known = measured.find(key);
  if (known !== undefined) return known;
  const lines = yield* measureAnew(drawer, write(), layout);
  if (lines !== null) measured.keep(key, lines);
  return lines;
}

/** @param mei a document without breaks */
function* measureAnew(
  drawer: Drawer,
  mei: string,
  layout: PageLayout,
): Stepwise<readonly NaturalLine[], readonly NaturalLine[] | null> {
  const outline = outlineDocument(mei);
  const count = outline?.measures.length ?? 0;
  // Where a piece ends does not depend on how long the part is: the first pieces may have been measured alone.
  const pieces = Array.from({ length: Math.ceil(count / BARS_OF_PIECE) }, (_, piece) => ({
    first: piece * BARS_OF_PIECE,
    last: Math.min(count, (piece + 1) * BARS_OF_PIECE) - 1,
  }));
  const documents = outline === null ? null : divideIntoLines(outline, pieces);
  if (outline === null || documents === null) {
    const line = measureLine(drawer, mei, layout);
    return line === null ? null : [line];
  }
  const lines: NaturalLine[] = [];
  const textOf = (piece: number): string => documents.write(piece, piece).mei;
  if (drawer.engraver.isHelped)
    expectLines(
      drawer,
      pieces.map((_, piece) => textOf(piece)),
      layout,
    );
  for (const [piece, { first, last }] of pieces.entries()) {
    const line = measureLine(drawer, textOf(piece), layout);
    if (line === null) return null;
    const own = new Set(outline.measures.slice(first, last + 1).map(({ id }) => id));
    lines.push({ ...line, bars: line.bars.filter(({ id }) => own.has(id)) });
    if (piece < pieces.length - 1) yield lines;
  }
  return lines;
}

/** Tells what will be laid out, that which was not measured before. */
const expectLines = ({ engraver, memory }: Drawer, texts: readonly string[], layout: PageLayout): void => {
  const fresh = texts.filter((mei) => memory.find(measuredKey(mei, layout)) === undefined);
  engraver.expect(fresh.map((mei) => ({ kind: 'unbroken', mei, layout })));
};

const measuredKey = (mei: string, layout: PageLayout): string =>
  drawingKey('measured', JSON.stringify(layout), mei);

const measureLine = ({ engraver, memory }: Drawer, mei: string, layout: PageLayout): NaturalLine | null => {
  const key = measuredKey(mei, layout);
  const known = memory.find(key);
  if (known !== undefined) return JSON.parse(known) as NaturalLine;
  const svg = engraver.layOutUnbroken(mei, layout);
  if (svg === null) return null;
  const line = measureBars(parsePage(svg), svgUnitsPerVu(layout));
  memory.keep(key, JSON.stringify(line));
  return line;
};
