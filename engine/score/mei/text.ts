import { decodeEntities } from '../../xml/entities.ts';
import type { XmlElement } from '../../xml/tree.ts';

/** SMuFL 1.4, range Standard accidentals: the three that name a pedal's position. */
const SYMBOLS: ReadonlyMap<string, string> = new Map([
  ['accidentalFlat', '♭'],
  ['accidentalNatural', '♮'],
  ['accidentalSharp', '♯'],
  ['e260', '♭'],
  ['e261', '♮'],
  ['e262', '♯'],
]);

const symbolText = (element: XmlElement): string => {
  const number = element.attributes['glyph.num'] ?? element.attributes.glyphnum ?? '';
  const name = element.attributes['glyph.name'] ?? element.attributes.glyphname ?? '';
  return SYMBOLS.get(name) ?? SYMBOLS.get(number.replace(/^(U\+|#x)/i, '').toLowerCase()) ?? '';
};

const smuflText = (text: string): string =>
  text.replace(/[\uE260-\uE262]/g, (each) => SYMBOLS.get(each.charCodeAt(0).toString(16))!);

/** Character data between two places of the source. */
const between = (source: string, start: number, end: number): string =>
  decodeEntities(
    source
      .slice(start, end)
      .replace(/<!--[\s\S]*?-->|<\?[\s\S]*?\?>/g, '')
      .replace(/<!\[CDATA\[([\s\S]*?)\]\]>/g, (_, data: string) => data.replaceAll('&', '&amp;')),
  );

/** The text inside an element in the order of the page, that of its children (`rend` and the like) included. */
const rawText = (element: XmlElement, source: string, without: ReadonlySet<string>): string => {
  if (element.name === 'symbol') return symbolText(element);
  if (element.name === 'lb') return ' ';
  let text = '';
  let place = element.inner.start;
  for (const each of element.children) {
    text += between(source, place, each.span.start);
    if (!without.has(each.name)) text += rawText(each, source, without);
    place = each.span.end;
  }
  return text + between(source, place, element.inner.end);
};

/** The words of an element as one line, leaving out children with the names in `without`. */
export const wordsOf = (element: XmlElement, source: string, ...without: readonly string[]): string =>
  smuflText(rawText(element, source, new Set(without)))
    .replace(/\s+/g, ' ')
    .trim();
