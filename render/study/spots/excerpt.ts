import { type Bar, descendantsNamed, type XmlElement } from '../../../engine/index.ts';
import { applyEdits, cut, type Edit, setAttribute } from '../../edit.ts';
import { EVERYTHING, kindOf } from '../../geometry/drawn-groups.ts';
import { findObstacles } from '../../geometry/obstacles.ts';
import { boxAround } from '../../geometry/outline-boxes.ts';
import { readTransform } from '../../geometry/transform.ts';
import type { PaperSize } from '../../printed/pdf.ts';
import { extendIds } from '../../printed/unique-ids.ts';
import type { Block } from '../../sheets/block.ts';
import { unitsOf } from '../../sheets/ink.ts';
import type { Sheet } from '../../sheets/sheet.ts';
import { parsePage } from '../../text/finish-page.ts';
import type { Box } from '../../text/outline.ts';

/** Above and below what stands in a line. */
const AIR_MM = 2.5;
/** The outer part of a page's margins, in which nothing of the music stands. */
const EDGE_MM = 9;

/** How lines that were cut out are shown. */
export interface LineLook {
  /** Whether bars of these lines that were not asked for are pale. */
  readonly paleOutside: boolean;
  /** Of the width of the sheet. */
  readonly share: number;
  /** Unique on a sheet: the ids of the lines end so. */
  readonly name: string;
}

/** The lines of music that hold some bars, cut out of the pages of the part. */
export const cutLines = (
  pages: readonly string[],
  bars: readonly Pick<Bar, 'id'>[],
  { paper }: Sheet,
): readonly CutLine[] => {
  const wanted = new Set(bars.map(({ id }) => id));
  return pages.flatMap((page) =>
    [...wanted].some((id) => page.includes(`"${id}"`)) ? cutFrom(page, wanted, paper) : [],
  );
};

/** Lines that were cut out, as blocks. */
export const placeLines = (lines: readonly CutLine[], look: LineLook, sheet: Sheet): readonly Block[] =>
  lines.map((line, i) => placeLine(line, { ...look, name: `-${look.name}-${i + 1}` }, sheet));

/** A line of music by itself. */
export interface CutLine {
  /** The page without the other lines. */
  readonly svg: string;
  /** The same with the bars pale that were not asked for. */
  readonly paleOutside: string;
  /** What of the page's height is shown, in its units. */
  readonly top: number;
  readonly bottom: number;
}

/** A page may be drawn smaller than it is printed. */
const drawnWidth = (root: XmlElement): number => {
  const drawing = descendantsNamed(root, 'svg').find(
    ({ attributes }) => attributes.class === 'definition-scale',
  );
  return Number(drawing?.attributes.viewBox?.split(' ')[2]);
};

const barsOf = (group: XmlElement): readonly XmlElement[] =>
  descendantsNamed(group, 'g').filter((each) => kindOf(each) === 'measure');

const isClosing = ({ attributes }: XmlElement): boolean => attributes.class === 'closing-notes';

const cutFrom = (page: string, wanted: ReadonlySet<string>, paper: PaperSize): readonly CutLine[] => {
  const root = parsePage(page);
  const margin = descendantsNamed(root, 'g').find(({ attributes }) => attributes.class === 'page-margin');
  if (margin === undefined) return [];
  const enlarged = unitsOf(paper.widthMm) / drawnWidth(root);
  const origin = readTransform(margin.attributes.transform);
  const isWanted = ({ attributes: { id = '' } }: XmlElement): boolean => wanted.has(id);
  return margin.children
    .map((group) => ({ group, bars: barsOf(group) }))
    .filter(({ bars }) => bars.some(isWanted))
    .map(({ group, bars }): CutLine => {
      const ink = inkOf(page, group);
      const air = unitsOf(AIR_MM);
      const alone = keepGroup(page, root, margin, group, paper);
      const pale = bars
        .filter((bar) => !isWanted(bar))
        .map(({ span }) => setAttribute(page, span.start, 'opacity', `${PALE}`));
      return {
        svg: writeOut(page, alone),
        paleOutside: writeOut(page, [...alone, ...pale]),
        top: (origin.f + ink.y0) * enlarged - air,
        bottom: (origin.f + ink.y1) * enlarged + air,
      };
    });
};

const PALE = 0.35;

/** What a group covers, in the coordinates inside the page's margins. */
const inkOf = (page: string, group: XmlElement): Box =>
  boxAround(
    findObstacles(page, group, EVERYTHING).flatMap(({ box: { x0, y0, x1, y1 } }) => [
      { x: x0, y: y0 },
      { x: x1, y: y1 },
    ]),
  );

/** Leaves one group of a page's music alone, and the signs that it is drawn with. */
const keepGroup = (
  page: string,
  root: XmlElement,
  margin: XmlElement,
  group: XmlElement,
  paper: PaperSize,
): readonly Edit[] => {
  const own = page.slice(group.span.start, group.span.end);
  const signs = new Set([...own.matchAll(/href="#([^"]+)"/g)].map(([, id]) => id));
  const unused = descendantsNamed(root, 'defs')
    .flatMap(({ children }) => children)
    .filter(({ name, attributes: { id } }) => name === 'g' && !signs.has(id));
  return [
    ...unused.map(({ span }) => cut(span)),
    ...margin.children.filter((each) => each !== group).map(({ span }) => cut(span)),
    // What is explained after the last line is among the findings.
    ...root.children.filter(isClosing).map(({ span }) => cut(span)),
    setAttribute(page, root.span.start, 'width', `${unitsOf(paper.widthMm)}`),
    setAttribute(page, root.span.start, 'height', `${unitsOf(paper.heightMm)}`),
  ];
};

const writeOut = (page: string, edits: readonly Edit[]): string =>
  applyEdits(page, edits).replace(/^<\?xml[^>]*\?>\s*/, '');

const placeLine = (
  { svg, paleOutside, top, bottom }: CutLine,
  look: LineLook,
  { paper, widthMm }: Sheet,
): Block => {
  const left = unitsOf(EDGE_MM);
  const width = unitsOf(paper.widthMm) - 2 * left;
  const [own, height] = [look.share * widthMm, bottom - top];
  const heightMm = (height * own) / width;
  return {
    heightMm,
    draw: (x, y) =>
      `<svg class="excerpt" x="${unitsOf(x + (widthMm - own) / 2)}" y="${unitsOf(y)}" width="${unitsOf(own)}" height="${unitsOf(heightMm)}" ` +
      `viewBox="${left} ${Math.round(top)} ${width} ${Math.round(height)}">${extendIds(look.paleOutside ? paleOutside : svg, look.name)}</svg>`,
  };
};
