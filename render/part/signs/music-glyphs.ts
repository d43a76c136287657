import { descendantsNamed, readMusicFont, type XmlElement } from '../../../engine/index.ts';
import { type Edit, escapeText } from '../../edit.ts';

/** Elements of MusicXML whose text may be set in a font of signs. */
const WORDS = [
  'words',
  'rehearsal',
  'per-minute',
  'dynamics',
  'other-dynamics',
  'fingering',
  'text',
] as const;

/** Edits that turn the private characters of a notation program's font into SMuFL's or Unicode's, in MusicXML. */
export const musicGlyphEdits = (bars: readonly XmlElement[]): Edit[] =>
  bars
    .flatMap((bar) => descendantsNamed(bar, ...WORDS))
    .filter(({ children }) => children.length === 0)
    .flatMap((element) => rewritten(element, element.attributes['font-family'] ?? ''));

/** The same in MEI, where a `rend` names the font. */
export const meiGlyphEdits = (root: XmlElement): Edit[] =>
  descendantsNamed(root, 'dir', 'tempo', 'dynam', 'reh', 'rend', 'harm', 'syl')
    .filter(({ children }) => children.length === 0)
    .flatMap((element) => rewritten(element, element.attributes.fontfam ?? ''));

const rewritten = ({ text, inner }: XmlElement, family: string): Edit[] => {
  const read = readMusicFont(text, family);
  return read === text || inner.end === inner.start ? [] : [{ ...inner, put: escapeText(read) }];
};
