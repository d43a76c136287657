import type { Span, XmlElement } from '../../engine/index.ts';
import { decodeEntities } from '../../engine/index.ts';
import type { TextFace } from './fonts.ts';

/** What SVG text inherits from element to element. Lengths in the SVG's own unit. */
export interface TextStyle {
  readonly sizeUnits: number;
  readonly face: TextFace;
  /** Set in the music font. */
  readonly music: boolean;
  readonly letterSpacing: number;
  readonly anchor: 'start' | 'middle' | 'end';
  /** The colour, if the text sets one. */
  readonly fill: string | null;
}

/** A stretch of character data in one style: what is shown, and where it stands in the source. */
export interface TextRun {
  readonly text: string;
  readonly source: Span;
  readonly style: TextStyle;
  /** Where a new line of text starts: SVG's "text chunk", which is aligned as a whole. */
  readonly start: { readonly x: number; readonly y: number } | null;
  /** A step away from where the run would have stood. */
  readonly shift: { readonly dx: number; readonly dy: number };
}

/** The colour of text that is not seen: it is there for searches and screen readers, beside outlines. */
export const UNSEEN = 'none';

export const isSeen = ({ style }: TextRun): boolean => style.fill !== UNSEEN;

export interface TextContent {
  readonly runs: readonly TextRun[];
  /** White space between tags, which some viewers show and others do not. */
  readonly gaps: readonly Span[];
}

interface Pending {
  x: number | null;
  y: number | null;
  dx: number;
  dy: number;
}

/**
 * Reads a `<text>` element of `svg` as runs in reading order, with white space collapsed as SVG does by default.
 *
 * Handles what Verovio writes: nested `tspan`, single values of x, y, dx and dy, sizes in px. A list of values or
 * another unit means that Verovio has changed: it throws.
 */
export const readTextRuns = (svg: string, text: XmlElement): TextContent => {
  const runs: TextRun[] = [];
  const gaps: Span[] = [];
  const pending: Pending = { x: 0, y: 0, dx: 0, dy: 0 };
  let y = 0;
  let endsInSpace = true;

  const addRun = (source: Span, style: TextStyle): void => {
    const raw = decodeCharacterData(svg.slice(source.start, source.end)).replace(/[ \t\r\n]+/g, ' ');
    const shown = endsInSpace ? raw.replace(/^ /, '') : raw;
    if (shown !== '') endsInSpace = shown.endsWith(' ');
    y = pending.y ?? y;
    runs.push({ text: shown, source, style, ...placeOf(pending, y) });
    Object.assign(pending, { x: null, y: null, dx: 0, dy: 0 });
  };

  const visit = (element: XmlElement, inherited: TextStyle): void => {
    if (element.name !== 'text' && element.name !== 'tspan') return;
    const style = styleOf(element, inherited);
    const before = { ...pending };
    const runsBefore = runs.length;
    movePen(pending, element);
    for (const part of partsOf(element)) {
      if ('element' in part) visit(part.element, style);
      else if (element.children.length > 0 && isBlank(svg, part.data)) gaps.push(part.data);
      else addRun(part.data, style);
    }
    // A position belongs to the characters inside: without any it moves nothing.
    if (runs.length === runsBefore) Object.assign(pending, before);
  };

  visit(text, INITIAL_STYLE);
  return { runs, gaps };
};

/** @param y where the line of text stands */
const placeOf = (pending: Pending, y: number): Pick<TextRun, 'start' | 'shift'> => {
  if (pending.x === null && pending.y !== null) throw new Error('SVG text with y but no x is not supported');
  const starts = pending.x !== null || pending.y !== null;
  return {
    start: starts ? { x: pending.x ?? 0, y } : null,
    shift: { dx: pending.dx, dy: pending.dy },
  };
};

/** What SVG assumes where nothing is said. */
const INITIAL_STYLE: TextStyle = {
  sizeUnits: 16,
  face: 'regular',
  music: false,
  letterSpacing: 0,
  anchor: 'start',
  fill: null,
};

type Part = { readonly element: XmlElement } | { readonly data: Span };

/** Children and the character data around them, in order; empty stretches are left out. */
const partsOf = (element: XmlElement): readonly Part[] => {
  const parts: Part[] = [];
  let at = element.inner.start;
  const addData = (end: number): void => {
    if (end > at) parts.push({ data: { start: at, end } });
  };
  for (const each of element.children) {
    addData(each.span.start);
    parts.push({ element: each });
    at = each.span.end;
  }
  addData(element.inner.end);
  return parts;
};

const isBlank = (svg: string, { start, end }: Span): boolean => /^[ \t\r\n]*$/.test(svg.slice(start, end));

const movePen = (pending: Pending, { attributes }: XmlElement): void => {
  const { x, y, dx, dy } = attributes;
  if (x !== undefined) pending.x = readLength(x);
  if (y !== undefined) pending.y = readLength(y);
  if (dx !== undefined) pending.dx += readLength(dx);
  if (dy !== undefined) pending.dy += readLength(dy);
};

const styleOf = ({ attributes }: XmlElement, inherited: TextStyle): TextStyle => {
  const size = attributes['font-size'];
  const spacing = attributes['letter-spacing'];
  const family = attributes['font-family'];
  return {
    sizeUnits: size === undefined ? inherited.sizeUnits : readLength(size),
    face: faceOf(attributes['font-weight'], attributes['font-style'], inherited.face),
    music: family === undefined ? inherited.music : isMusicFamily(family),
    letterSpacing: spacing === undefined ? inherited.letterSpacing : readLength(spacing),
    anchor: anchorOf(attributes['text-anchor']) ?? inherited.anchor,
    fill: attributes.fill ?? inherited.fill,
  };
};

const isMusicFamily = (family: string): boolean => /^\s*['"]?bravura/i.test(family);

const faceOf = (weight: string | undefined, slant: string | undefined, inherited: TextFace): TextFace => {
  const bold =
    weight === undefined ? inherited.startsWith('bold') : weight === 'bold' || Number(weight) >= 600;
  const italic =
    slant === undefined ? inherited.endsWith('italic') : slant === 'italic' || slant === 'oblique';
  if (bold) return italic ? 'bold-italic' : 'bold';
  return italic ? 'italic' : 'regular';
};

const anchorOf = (value: string | undefined): TextStyle['anchor'] | null =>
  value === 'start' || value === 'middle' || value === 'end' ? value : null;

const readLength = (value: string): number => {
  const number = /^\s*([-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?)(?:px)?\s*$/i.exec(value)?.[1];
  if (number === undefined) throw new Error(`SVG length “${value}” is not supported`);
  return Number(number);
};

/** Character data as characters. */
const decodeCharacterData = (source: string): string =>
  decodeEntities(source.replace(/<!--[\s\S]*?-->/g, ''));
