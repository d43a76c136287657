import type { PageLayout } from '../breaks/page-layout.ts';
import { drawingKey } from '../drawer/drawing-memory.ts';
import type { DrawingTask } from '../drawer/drawing-task.ts';
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
  /** Tells which lines will be drawn: lists of those that will be asked for together, in their order. */
  readonly expect: (wanted: readonly (readonly number[])[]) => void;
}

/** Lines that are laid out in one document: each load costs as much as some four lines. */
const MOST_TOGETHER = 24;

/** Where another thread may draw some of them, there is to be something for it. */
const MOST_TOGETHER_HELPED = 12;

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
        expect: () => {},
      }
    : {
        count: documents.count,
        keyOf: (line) => {
          keys[line] ??= drawingKey(JSON.stringify(look), documents.write(line, line).mei);
          return keys[line];
        },
        draw: (wanted) => drawWanted(engraver, documents, look, wanted),
        expect: (wanted) => {
          const groups = wanted.flatMap((lines) => groupNeighbours(lines, documents, engraver));
          engraver.expect(groups.map((group) => taskOf(documents, look, group).task));
        },
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
  const groups = groupNeighbours(lines, documents, engraver);
  if (engraver.isHelped) engraver.expect(groups.map((group) => taskOf(documents, look, group).task));
  for (const group of groups) {
    const { extra, task } = taskOf(documents, look, group);
    const svgs = engraver.drawPages(task.mei, task.layout, task.pages, task.apartVu)?.slice(extra) ?? null;
    if (svgs === null) return null;
    drawn.push(...svgs.map((svg, i) => ownIds(svg, documents.ids, `line-${documents.nameOf(group[i]!)}`)));
  }
  return drawn;
};

/** Neighbouring lines as they are drawn together. @returns how many drawings stand before theirs, too */
const taskOf = (
  documents: LineDocuments,
  look: Look,
  group: readonly number[],
): { readonly task: DrawingTask & { readonly kind: 'pages' }; readonly extra: number } => {
  const { extra, mei, pages } = documents.write(group[0]!, group.at(-1)!);
  return { task: { kind: 'pages', mei, ...look, pages }, extra };
};

const groupNeighbours = (
  lines: readonly number[],
  { endsMovement }: Pick<LineDocuments, 'endsMovement'>,
  { isHelped }: Pick<Engraver, 'isHelped'>,
): number[][] => {
  const most = isHelped ? MOST_TOGETHER_HELPED : MOST_TOGETHER;
  const groups: number[][] = [];
  for (const line of lines) {
    const last = groups.at(-1);
    const isNext = last?.at(-1) === line - 1 && !endsMovement(line - 1);
    if (isNext && last.length < most) last.push(line);
    else groups.push([line]);
  }
  return groups;
};
