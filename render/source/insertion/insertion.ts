import type { Span, TextEncoding, XmlElement } from '../../../engine/index.ts';
import { cut, type Edit, insertAt } from '../../edit.ts';

/**
 * Our elements come with white space before them and none after: they stand directly behind the tag or comment that
 * was there. So an element and the white space before it is exactly what was inserted.
 */
export const insertBefore = (text: string, next: number, element: string): Edit => {
  const start = spaceStart(text, next);
  return insertAt(start, text.slice(start, next) + element);
};

/** Inserts directly behind an element, indented as it is. */
export const insertAfter = (text: string, before: XmlElement, element: string): Edit => {
  const { start, end } = before.span;
  return insertAt(end, text.slice(spaceStart(text, start), start) + element);
};

/** Takes out an element with the white space before it: undoes the two insertions above. */
export const cutWithSpace = (text: string, span: Span): Edit =>
  cut({ start: spaceStart(text, span.start), end: span.end });

const isSpace = (char: string | undefined): boolean =>
  char === ' ' || char === '\n' || char === '\r' || char === '\t';

const spaceStart = (text: string, end: number): number => {
  let start = end;
  while (isSpace(text[start - 1])) start -= 1;
  return start;
};

/** The namespace prefix with which the document writes its elements, such as `mei:`; mostly empty. */
export const prefixOf = (text: string, element: XmlElement): string =>
  /^<([^\s:/>]+:)/.exec(text.slice(element.span.start, element.span.start + 80))?.[1] ?? '';

/** XML whose elements have no prefix, with that of the document. */
export const withPrefix = (prefix: string, xml: string): string =>
  prefix === '' ? xml : xml.replace(/<(\/?)(?=[a-z])/g, `<$1${prefix}`);

/** Whether an element has no inside to insert into, as `<measure/>`. */
export const isSelfClosing = (text: string, { span, inner }: XmlElement): boolean =>
  inner.start === span.end && text.startsWith('/>', span.end - 2);

/** Text that every byte encoding can hold as it is: what ISO-8859-1 lacks becomes a character reference. */
export const escapeForEncoding = (encoding: TextEncoding, xml: string): string =>
  encoding === 'iso-8859-1'
    ? xml.replace(/[^\0-\u00FF]/gu, (char) => `&#x${char.codePointAt(0)!.toString(16).toUpperCase()};`)
    : xml;
