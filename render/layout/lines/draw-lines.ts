import type { PageLayout } from '../breaks/page-layout.ts';
import { drawingKey } from '../drawing-memory.ts';
import type { Engraver } from '../verovio.ts';
import { outlineDocument } from './document-outline.ts';
import { divideIntoLines, type LineDocuments } from './line-documents.ts';
import { ownIds } from './own-ids.ts';

/** A document whose lines can be drawn. */
export interface LinesToDraw {
  /** How many lines there are; null where they cannot be told apart: all are laid out at once, however few are wanted. */
  readonly count: number | null;
  /** The hash of everything that a line is laid out from. */
  readonly keyOf: (line: number) => string;
  /**
   * @param wanted indices of the lines; all without it
   * @returns the SVGs of the wanted lines; null where Verovio cannot load the document
   */
  readonly draw: (wanted?: readonly number[]) => readonly string[] | null;
}

/** Lines that are laid out in one document: alone each would take longer. */
const MOST_TOGETHER = 6;

/**
 * Makes the lines of a document ready to be drawn, each as high as what it holds. A line looks the same with whichever
 * others it is laid out.
 *
 * @param mei a document with a page break before each line but the first
 */
export const openLines = (engraver: Engraver, mei: string, layout: PageLayout): LinesToDraw => {
  const outline = outlineDocument(mei);
  const documents = outline === null ? null : divideIntoLines(outline);
  const keys: string[] = [];
  return documents === null
    ? {
        count: null,
        keyOf: () => drawingKey(mei),
        draw: (wanted) => drawWhole(engraver, mei, layout, wanted),
      }
    : {
        count: documents.count,
        keyOf: (line) => {
          keys[line] ??= drawingKey(JSON.stringify(layout), documents.write(line, line).mei);
          return keys[line];
        },
        draw: (wanted) => drawWanted(engraver, documents, layout, wanted),
      };
};

const drawWhole = (
  engraver: Engraver,
  mei: string,
  layout: PageLayout,
  wanted?: readonly number[],
): string[] | null => {
  const lines = engraver.drawPages(mei, layout, wanted);
  const ids = new Set([...mei.matchAll(/xml:id\s*=\s*["']([^"']*)["']/g)].map(([, id]) => id!));
  return lines?.map((svg, i) => ownIds(svg, ids, `line-${wanted?.[i] ?? i}`)) ?? null;
};

const drawWanted = (
  engraver: Engraver,
  documents: LineDocuments,
  layout: PageLayout,
  wanted?: readonly number[],
): string[] | null => {
  const lines = wanted ?? Array.from({ length: documents.count }, (_, line) => line);
  const drawn: string[] = [];
  for (const group of groupNeighbours(lines)) {
    const svgs = drawGroup(engraver, documents, layout, group);
    if (svgs === null) return null;
    drawn.push(...svgs.map((svg, i) => ownIds(svg, documents.ids, `line-${documents.nameOf(group[i]!)}`)));
  }
  return drawn;
};

const drawGroup = (
  engraver: Engraver,
  documents: LineDocuments,
  layout: PageLayout,
  group: readonly number[],
): string[] | null => {
  const { extra, mei, pages } = documents.write(group[0]!, group.at(-1)!);
  return engraver.drawPages(mei, layout, pages)?.slice(extra) ?? null;
};

const groupNeighbours = (lines: readonly number[]): number[][] => {
  const groups: number[][] = [];
  for (const line of lines) {
    const last = groups.at(-1);
    if (last !== undefined && last.at(-1) === line - 1 && last.length < MOST_TOGETHER) last.push(line);
    else groups.push([line]);
  }
  return groups;
};
