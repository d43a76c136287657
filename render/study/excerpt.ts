import { type Bar, descendantsNamed, type HarpKind, type XmlElement } from '../../engine/index.ts';
import { applyEdits, cut, setAttribute } from '../edit.ts';
import { type PageSystem, readSystems } from '../geometry/page-systems.ts';
import { readTransform } from '../geometry/transform.ts';
import { SVG_UNITS_PER_MM } from '../layout/breaks/page-layout.ts';
import type { PaperSize } from '../pages/pdf.ts';
import type { Block } from '../sheets/block.ts';
import { unitsOf } from '../sheets/ink.ts';
import type { Sheet } from '../sheets/sheet.ts';
import { parsePage } from '../text/finish-page.ts';

/** Above the first line of music on a page and below its last, what stands there is within so much of the staves. */
const MOST_AROUND_MM = 22;
/** The same below where words stand under the changes. */
const MOST_WITH_WORDS_MM = 34;
/** The same above where the table of the levers stands there. */
const MOST_ABOVE_MM: Readonly<Record<HarpKind, number>> = { pedal: MOST_AROUND_MM, lever: 40 };
/** A clef and a key signature rise so far over the staff of the next line, where that is drawn in one with its own. */
const CLEF_OVER_STAFF_MM = 4;
/** The outer part of a page's margins, in which nothing of the music stands. */
const EDGE_MM = 9;

/** What stands round the staves of the pages. */
interface ExcerptLook {
  readonly harp: HarpKind;
  /** Words under the changes. */
  readonly changeWords: boolean;
}

/** The lines of music that hold some bars, cut out of the pages of the part: a block for each page they stand on. */
export const excerptLines = (
  pages: readonly string[],
  bars: readonly Pick<Bar, 'id'>[],
  look: ExcerptLook,
  sheet: Sheet,
): readonly Block[] => {
  const wanted = new Set(bars.map(({ id }) => id));
  return pages.flatMap((page) => {
    if (![...wanted].some((id) => page.includes(`"${id}"`))) return [];
    const cutOut = cutLines(page, wanted, sheet.paper, look);
    return cutOut === null ? [] : [placeExcerpt(cutOut, sheet)];
  });
};

interface Excerpt {
  /** The page without the other lines. */
  readonly svg: string;
  /** What of the page's height is shown, in its units: never its margins. */
  readonly top: number;
  readonly bottom: number;
}

/** A line of music on a composed page: the group that holds it, and where its staves are on the page. */
interface PageLine extends Pick<PageSystem, 'bars' | 'staffTop' | 'staffBottom'> {
  readonly group: XmlElement;
}

/** A page may be drawn smaller than it is printed. */
const drawnWidth = (root: XmlElement): number => {
  const drawing = descendantsNamed(root, 'svg').find(
    ({ attributes }) => attributes.class === 'definition-scale',
  );
  return Number(drawing?.attributes.viewBox?.split(' ')[2]);
};

/** @returns lines with their heights on the page as it is printed */
const linesOf = (margin: XmlElement, enlarged: number): readonly PageLine[] => {
  const origin = readTransform(margin.attributes.transform).f;
  return margin.children.flatMap((group) => {
    const down = origin + readTransform(group.attributes.transform).f;
    return readSystems(group).systems.map(({ bars, staffTop, staffBottom }) => ({
      group,
      bars,
      staffTop: (staffTop + down) * enlarged,
      staffBottom: (staffBottom + down) * enlarged,
    }));
  });
};

const isClosing = ({ attributes }: XmlElement): boolean => attributes.class === 'closing-notes';

const cutLines = (
  page: string,
  wanted: ReadonlySet<string>,
  paper: PaperSize,
  { harp, changeWords }: ExcerptLook,
): Excerpt | null => {
  const root = parsePage(page);
  const margin = descendantsNamed(root, 'g').find(({ attributes }) => attributes.class === 'page-margin');
  if (margin === undefined) return null;
  const enlarged = unitsOf(paper.widthMm) / drawnWidth(root);
  const lines = linesOf(margin, enlarged);
  const held = lines.flatMap(({ bars }, i) => (bars.some((id) => wanted.has(id)) ? [i] : []));
  const [first, last] = [held[0], held.at(-1)];
  if (first === undefined || last === undefined) return null;
  const kept = new Set(lines.slice(first, last + 1).map(({ group }) => group));
  const edge = unitsOf(EDGE_MM);
  const below = (changeWords ? MOST_WITH_WORDS_MM : MOST_AROUND_MM) * SVG_UNITS_PER_MM;
  const next = lines[last + 1];
  const clef = next !== undefined && kept.has(next.group) ? CLEF_OVER_STAFF_MM * SVG_UNITS_PER_MM : 0;
  return {
    svg: applyEdits(page, [
      ...margin.children.filter((group) => !kept.has(group)).map(({ span }) => cut(span)),
      // What is explained after the last line is among the findings.
      ...root.children.filter(isClosing).map(({ span }) => cut(span)),
      setAttribute(page, root.span.start, 'width', `${unitsOf(paper.widthMm)}`),
      setAttribute(page, root.span.start, 'height', `${unitsOf(paper.heightMm)}`),
    ]).replace(/^<\?xml[^>]*\?>\s*/, ''),
    top: Math.max(
      lines[first - 1]?.staffBottom ?? edge,
      lines[first]!.staffTop - MOST_ABOVE_MM[harp] * SVG_UNITS_PER_MM,
    ),
    bottom: Math.min(
      next === undefined ? unitsOf(paper.heightMm) - edge : next.staffTop - clef,
      lines[last]!.staffBottom + below,
    ),
  };
};

/** The excerpt as wide as the sheet. */
const placeExcerpt = ({ svg, top, bottom }: Excerpt, { paper, widthMm }: Sheet): Block => {
  const left = unitsOf(EDGE_MM);
  const width = unitsOf(paper.widthMm) - 2 * left;
  const height = ((bottom - top) * unitsOf(widthMm)) / width;
  return {
    heightMm: height / SVG_UNITS_PER_MM,
    draw: (x, y) =>
      `<svg class="excerpt" x="${unitsOf(x)}" y="${unitsOf(y)}" width="${unitsOf(widthMm)}" height="${Math.round(height)}" ` +
      `viewBox="${left} ${Math.round(top)} ${width} ${Math.round(bottom - top)}">${svg}</svg>`,
  };
};
