import type { PageLayout } from '../breaks/page-layout.ts';
import { drawingKey } from '../drawer/drawing-memory.ts';
import type { Engraver } from '../drawer/verovio.ts';
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

/** Lines that are laid out in one document: each load costs as much as some four lines. */
const MOST_TOGETHER = 24;

/**
 * Makes the lines of a document ready to be drawn, each as high as what it holds. A line looks the same with whichever
 * others it is laid out.
 *
 * @param mei a document with a page break before each line but the first
 * @param apartVu how much farther apart the staves stand than usual
 */
export const openLines = (engraver: Engraver, mei: string, layout: PageLayout, apartVu = 0): LinesToDraw => {
  const look: Look = { layout, apartVu };
  const outline = outlineDocument(mei);
  const documents = outline === null ? null : divideIntoLines(outline);
  const keys: string[] = [];
  return documents === null
    ? {
        count: null,
        keyOf: () => drawingKey(mei),
        draw: (wanted) => drawWhole(engraver, mei, look, wanted),
      }
    : {
        count: documents.count,
        keyOf: (line) => {
          keys[line] ??= drawingKey(JSON.stringify(look), documents.write(line, line).mei);
          return keys[line];
        },
        draw: (wanted) => drawWanted(engraver, documents, look, wanted),
      };
};

interface Look {
  readonly layout: PageLayout;
  readonly apartVu: number;
}

const drawWhole = (
  engraver: Engraver,
  mei: string,
  { apartVu, layout }: Look,
  wanted?: readonly number[],
): string[] | null => {
  const lines = engraver.drawPages(mei, layout, wanted, apartVu);
  const ids = new Set([...mei.matchAll(/xml:id\s*=\s*["']([^"']*)["']/g)].map(([, id]) => id!));
  return lines?.map((svg, i) => ownIds(svg, ids, `line-${wanted?.[i] ?? i}`)) ?? null;
};

const drawWanted = (
  engraver: Engraver,
  documents: LineDocuments,
  look: Look,
  wanted?: readonly number[],
): string[] | null => {
  const lines = wanted ?? Array.from({ length: documents.count }, (_, line) => line);
  const drawn: string[] = [];
  for (const group of groupNeighbours(lines, documents.endsMovement)) {
    const svgs = drawGroup(engraver, documents, look, group);
    if (svgs === null) return null;
    drawn.push(...svgs.map((svg, i) => ownIds(svg, documents.ids, `line-${documents.nameOf(group[i]!)}`)));
  }
  return drawn;
};

const drawGroup = (
  engraver: Engraver,
  documents: LineDocuments,
  { apartVu, layout }: Look,
  group: readonly number[],
): string[] | null => {
  const { extra, mei, pages } = documents.write(group[0]!, group.at(-1)!);
  return engraver.drawPages(mei, layout, pages, apartVu)?.slice(extra) ?? null;
};

const groupNeighbours = (lines: readonly number[], isEnd: (line: number) => boolean): number[][] => {
  const groups: number[][] = [];
  for (const line of lines) {
    const last = groups.at(-1);
    const isNext = last?.at(-1) === line - 1 && !isEnd(line - 1);
    if (isNext && last.length < MOST_TOGETHER) last.push(line);
    else groups.push([line]);
  }
  return groups;
};
