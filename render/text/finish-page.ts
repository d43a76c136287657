import {
  descendantsNamed,
  escapeText,
  parseXml,
  problemMessage,
  type Span,
  XML_LIMITS,
  type XmlElement,
} from '../../engine/index.ts';
import { cut, type Edit, editSlices, insertAt, setAttribute } from '../edit.ts';
import type { MovedGroups } from '../geometry/moved-groups.ts';
import type { FontCharacters } from './embed-fonts.ts';
import { MUSIC_FAMILY, TEXT_FAMILIES, type TextFace } from './fonts.ts';
import { isSeen, readTextRuns, type TextRun, UNSEEN } from './text-runs.ts';
import {
  holdsSign,
  missingCharacters,
  type PlacedPiece,
  placePieces,
  shownCharacters,
} from './text-signs.ts';

/** A drawing that looks the same wherever its letters are at hand. */
export interface FinishedDrawing {
  /** The text of a stretch of the drawing, finished. */
  readonly read: (span: Span) => string;
  readonly characters: FontCharacters;
  /** Characters that neither Tinos nor Bravura draws, in order of code point: how they look is the viewer's choice. */
  readonly missing: readonly string[];
}

/** SVG nests a score's elements in a few of its own, so it may be deeper than any score that was read. */
const SVG_LIMITS = { ...XML_LIMITS, depth: 2 * XML_LIMITS.depth };

/** Parses a page of Verovio's; one that is not XML is a bug and throws. */
export const parsePage = (svg: string): XmlElement => {
  const parsed = parseXml(svg, SVG_LIMITS);
  if (!parsed.ok) throw new Error(`The page is not well-formed: ${problemMessage(parsed.problem)}`);
  return parsed.value;
};

/** An SVG document that looks the same wherever its letters are at hand. */
export interface FinishedPage extends Omit<FinishedDrawing, 'read'> {
  readonly svg: string;
}

/** Finishes an SVG document as a whole. */
export const finishPage = (svg: string): FinishedPage => {
  const { read, ...found } = finishDrawing(svg, parsePage(svg));
  return { ...found, svg: read({ start: 0, end: svg.length }) };
};

/**
 * Makes a drawing's text independent of the viewer's fonts: music characters become outlines where they stood, words
 * name Tinos and fonts of the same widths.
 *
 * Everything else, ids included, is kept as written, but for what the given edits change. Linear time.
 *
 * @param svg a drawing from Verovio with the options `mmOutput` and `smuflTextFont: 'none'`; text that is not XML, or
 * that uses SVG in a way Verovio does not, is a bug and throws
 * @param root the drawing as parsed
 * @param moved groups that are moved
 * @param replacements edits of whole elements, whose text is then not looked at
 */
export const finishDrawing = (
  svg: string,
  root: XmlElement,
  replacements: readonly Edit[] = [],
  moved: MovedGroups = new Map(),
): FinishedDrawing => {
  const seen: SeenLetters = { missing: new Set(), shown: new Map() };
  const edits: Edit[] = [...replacements];
  const replaced = new Set(replacements.map(({ start }) => start));
  const visit = (element: XmlElement): void => {
    if (replaced.has(element.span.start)) return;
    if (element.name === 'text') edits.push(...finishText(svg, element, seen));
    else {
      if (element.attributes['font-family'] !== undefined)
        edits.push(rewriteStartTag(svg, element, KEEP_PLACE));
      const shift = moved.get(element.span.start);
      if (shift !== undefined) {
        const put = `translate(${round(shift.dx)}, ${round(shift.dy)})`;
        edits.push(setAttribute(svg, element.span.start, 'transform', put));
      }
      for (const each of element.children) visit(each);
    }
  };
  visit(root);
  return { read: editSlices(svg, edits), characters: seen.shown, missing: [...seen.missing].sort() };
};

interface SeenLetters {
  readonly missing: Set<string>;
  readonly shown: Map<TextFace, Set<string>>;
}

const noteLetters = (run: TextRun, { missing, shown }: SeenLetters): void => {
  for (const each of missingCharacters(run)) missing.add(each);
  const { face } = run.style;
  const letters = shown.get(face) ?? new Set();
  shown.set(face, letters);
  for (const each of shownCharacters(run)) letters.add(each);
};

const finishText = (svg: string, text: XmlElement, seen: SeenLetters): readonly Edit[] => {
  const { gaps, runs: all } = readTextRuns(svg, text);
  // What is there for searches alone stays as it is.
  const runs = all.filter(isSeen);
  for (const run of runs) noteLetters(run, seen);
  const outlined = runs.some(holdsSign);
  const tags = [text, ...descendantsNamed(text, 'tspan')].filter(
    ({ attributes }) => attributes.fill !== UNSEEN,
  );
  return [
    ...tags.map((each) => rewriteStartTag(svg, each, outlined ? DROP_STEPS : KEEP_PLACE)),
    ...gaps.map(cut),
    ...(outlined ? outlineEdits(text, placePieces(runs)) : []),
  ];
};

/** Words stay in the text at their computed places; signs follow the text as paths, and stand in it unseen. */
const outlineEdits = (text: XmlElement, pieces: readonly PlacedPiece[]): readonly Edit[] => {
  const wordsOfRun = new Map<PlacedPiece['run'], string>();
  let paths = '';
  for (const piece of pieces) {
    const words = wordsOfRun.get(piece.run) ?? '';
    wordsOfRun.set(piece.run, words + (piece.kind === 'words' ? writeWords(piece) : writeLetter(piece)));
    if (piece.kind === 'sign') paths += writePath(piece);
  }
  return [
    ...[...wordsOfRun].map(([run, words]) => ({ start: run.source.start, end: run.source.end, put: words })),
    insertAt(text.span.end, paths),
  ];
};

const writeWords = ({ words, x, y }: PlacedPiece & { readonly kind: 'words' }): string =>
  words === ''
    ? ''
    : `<tspan x="${round(x)}" y="${round(y)}" text-anchor="start">${escapeText(words)}</tspan>`;

/** What a search finds and a screen reader says where the sign is: the outline is what is seen. */
const writeLetter = ({ drop, letter, x, y }: PlacedPiece & { readonly kind: 'sign' }): string =>
  letter === null
    ? ''
    : `<tspan x="${round(x)}" y="${round(y - drop)}" text-anchor="start" font-family="${MUSIC_FAMILY}" fill="${UNSEEN}" stroke="${UNSEEN}">${letter}</tspan>`;

const writePath = ({ glyph, run, sizeUnits, x, y }: PlacedPiece & { readonly kind: 'sign' }): string => {
  if (glyph.pathData === '') return '';
  const fill = run.style.fill === null ? '' : ` fill="${escapeText(run.style.fill)}"`;
  const scale = Number((sizeUnits / 1000).toFixed(5));
  return `<path transform="translate(${round(x)}, ${round(y)}) scale(${scale})" d="${glyph.pathData}"${fill} />`;
};

const round = (units: number): number => Number(units.toFixed(2));

/** Attributes that a start tag loses, besides the change of font that all undergo. */
const KEEP_PLACE: readonly string[] = [];
const DROP_STEPS: readonly string[] = ['dx', 'dy'];

const rewriteStartTag = (svg: string, element: XmlElement, dropped: readonly string[]): Edit => {
  const start = element.span.start;
  const end = element.inner.start;
  const tag = svg.slice(start, end);
  const put = tag.replace(/\s+([\w:.-]+)\s*=\s*(?:"[^"]*"|'[^']*')/g, (whole, name: string) => {
    if (name === 'font-family') return ` font-family="${TEXT_FAMILIES}"`;
    return dropped.includes(name) ? '' : whole;
  });
  return { start, end, put };
};
