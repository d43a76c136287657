import type { XmlElement } from '../../xml/tree.ts';
import type { ReadLog } from './log.ts';

type Bounds = readonly [least: number, most: number];

/** A whole number within bounds; undefined where the attribute is missing or refused. */
export const readInteger = (
  element: XmlElement,
  name: string,
  bounds: Bounds,
  log: ReadLog,
): number | undefined =>
  readNumber(element, name, { form: /^[+-]?\d{1,9}(\.0+)?$/, words: 'a whole number', bounds }, log);

/** A decimal number within bounds; undefined where the attribute is missing or refused. */
export const readDecimal = (
  element: XmlElement,
  name: string,
  bounds: Bounds,
  log: ReadLog,
): number | undefined =>
  readNumber(element, name, { form: /^[+-]?(\d{1,9}(\.\d*)?|\.\d+)$/, words: 'a number', bounds }, log);

const readNumber = (
  element: XmlElement,
  name: string,
  wanted: { readonly form: RegExp; readonly words: string; readonly bounds: Bounds },
  log: ReadLog,
): number | undefined => {
  const text = element.attributes[name]?.trim();
  if (text === undefined || text === '') return undefined;
  const [least, most] = wanted.bounds;
  const value = wanted.form.test(text) ? Number(text) : Number.NaN;
  if (value >= least && value <= most) return value;
  log.badValue(`${name} (${wanted.words} from ${least} to ${most})`, text, element);
  return undefined;
};

export const isTrue = (element: XmlElement, name: string): boolean =>
  element.attributes[name]?.trim() === 'true';

/** The id that a URI attribute points at within this document: `#m1` and `other.mei#m1` both give `m1`. */
export const readReference = (element: XmlElement, name: string): string | undefined => {
  const uri = element.attributes[name]?.trim();
  return uri === undefined || uri === '' ? undefined : uri.slice(uri.lastIndexOf('#') + 1);
};

/** The values of a list attribute, parted by white space. */
export const readList = (element: XmlElement, name: string): readonly string[] =>
  (element.attributes[name] ?? '').split(/\s+/).filter((each) => each !== '');

export const readReferences = (element: XmlElement, name: string): readonly string[] =>
  readList(element, name).map((uri) => uri.slice(uri.lastIndexOf('#') + 1));

export const xmlId = (element: XmlElement): string | undefined => element.attributes['xml:id'];
