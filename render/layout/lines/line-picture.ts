import { childrenNamed, descendantsNamed, type Span, type XmlElement } from '../../../engine/index.ts';
import { cut, type Edit } from '../../edit.ts';
import type { MovedGroups } from '../../geometry/moved-groups.ts';
import { findRehearsalMarks, type RehearsalMark } from '../../geometry/rehearsal-marks.ts';
import type { FontCharacters } from '../../text/embed-fonts.ts';
import { finishDrawing } from '../../text/finish-page.ts';

/** A line as it goes on pages, its text independent of the viewer's fonts, with gaps for drawings of ours. */
export interface LinePicture {
  /** SVG elements, in coordinates from the margins of the line's own drawing. */
  readonly body: GappedText;
  readonly heading: GappedText;
  /** The outlines that it refers to, by the code point of the glyph. */
  readonly glyphs: ReadonlyMap<string, string>;
  /** Heights in the same coordinates. */
  readonly rehearsals: readonly Pick<RehearsalMark, 'text' | 'y'>[];
  readonly characters: FontCharacters;
  readonly missing: readonly string[];
  /** Ids of the signs that the layout drew for us: the gap of each is for its start tag. */
  readonly signs: readonly string[];
}

/** Text and the names of gaps in turn, beginning and ending with text. */
export type GappedText = readonly string[];

export const fillGaps = (text: GappedText, fill: (name: string) => string): string =>
  text.map((part, i) => (i % 2 === 0 ? part : fill(part))).join('');

/** A gap, and what is cut out for it. */
interface Gap {
  readonly name: string;
  readonly span: Span;
}

/**
 * @param heading the group over the first line of all
 * @param rooms gaps for whole drawings
 * @param fences what only kept room, and goes
 * @param signIds of all signs that the layout draws for us
 */
export const pictureLine = (
  svg: string,
  root: XmlElement,
  {
    heading,
    moved,
    rooms,
    fences,
    signIds,
  }: {
    readonly heading: XmlElement | null;
    readonly moved: MovedGroups;
    readonly rooms: readonly Gap[];
    readonly fences: readonly Span[];
    readonly signIds: ReadonlySet<string>;
  },
): LinePicture => {
  const signs = signIds.size === 0 ? [] : findSigns(root, signIds);
  const gaps = [
    ...[...rooms, ...signs].map(({ name, span }): Edit => ({ ...span, put: `${GAP}${name}${GAP}` })),
    ...fences.map(cut),
  ];
  const { characters, missing, read } = finishDrawing(svg, root, gaps, moved);
  const { inner } = descendantsNamed(root, 'g').find(({ attributes }) => attributes.class === 'page-margin')!;
  const apart = heading?.span ?? { start: inner.end, end: inner.end };
  const body = read({ start: inner.start, end: apart.start }) + read({ start: apart.end, end: inner.end });
  return {
    body: body.split(GAP),
    heading: read(apart).split(GAP),
    glyphs: readGlyphs(svg, root),
    rehearsals: findRehearsalMarks(svg, root),
    characters,
    missing,
    signs: signs.map(({ name }) => name),
  };
};

/** No character of XML. */
const GAP = '\0';

const findSigns = (root: XmlElement, ids: ReadonlySet<string>): readonly Gap[] => {
  const found: Gap[] = [];
  const visit = (element: XmlElement): void => {
    const name = element.attributes.id ?? '';
    if (ids.has(name)) found.push({ name, span: { start: element.span.start, end: element.inner.start } });
    else for (const each of element.children) visit(each);
  };
  visit(root);
  return found;
};

/** Outlines by their text: all lines have the same few, and a stretch of a text would keep the whole of it. */
const OUTLINES = new Map<string, string>();

/** Verovio names a glyph by its code point and the drawing. */
const readGlyphs = (svg: string, root: XmlElement): Map<string, string> =>
  new Map(
    childrenNamed(root, 'defs')
      .flatMap(({ children }) => children)
      .map(({ attributes, inner }) => {
        const outline = svg.slice(inner.start, inner.end).trim();
        const known = OUTLINES.get(outline) ?? Buffer.from(outline).toString();
        OUTLINES.set(known, known);
        return [(attributes.id ?? '').split('-')[0]!, known];
      }),
  );
