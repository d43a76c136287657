import { readFontFile, TEXT_FACES, type TextFace } from './fonts.ts';

/** The characters of the text font that something shows, by face. */
export type FontCharacters = ReadonlyMap<TextFace, ReadonlySet<string>>;

/** The letters of several pages. */
export const mergeCharacters = (pages: readonly FontCharacters[]): FontCharacters =>
  new Map(
    TEXT_FACES.map((face) => [face, new Set(pages.flatMap((letters) => [...(letters.get(face) ?? [])]))]),
  );

/**
 * SVG pages that bring the letters they show: a viewer that has neither Tinos nor a font of its widths would set the
 * words so wide that they run into each other. All pages get the same, so that they may stand in one document; beside
 * those of another score the ranges keep each to its own letters.
 *
 * Some 7 kB a face. Viewers that know no CSS fonts (usvg, librsvg) pass over it.
 *
 * @param pages SVG documents
 */
export const embedFonts = async (pages: readonly string[], letters: FontCharacters): Promise<string[]> => {
  const style = await fontStyle(letters);
  return pages.map((page) => {
    const end = page.lastIndexOf('</svg>');
    return `${page.slice(0, end)}${style}\n${page.slice(end)}`;
  });
};

/** The element that brings the letters of pages; it stands before the end of each. */
export const fontStyle = async (letters: FontCharacters): Promise<string> => {
  const rules = await Promise.all([...letters].map(([face, shown]) => fontRule(face, [...shown])));
  return `<style type="text/css">${rules.join('')}</style>`;
};

const CSS_FACES: Readonly<Record<TextFace, string>> = {
  regular: 'font-style:normal;font-weight:400',
  bold: 'font-style:normal;font-weight:700',
  italic: 'font-style:italic;font-weight:400',
  'bold-italic': 'font-style:italic;font-weight:700',
};

const fontRule = async (face: TextFace, shown: readonly string[]): Promise<string> => {
  if (shown.length === 0) return '';
  const points = shown.map((letter) => letter.codePointAt(0)!).sort((a, b) => a - b);
  const text = String.fromCodePoint(...points);
  const { default: subsetFont } = await import('subset-font');
  const font = await subsetFont(readFontFile(face), text, { targetFormat: 'truetype', noHinting: true });
  const ranges = points.map((point) => `U+${point.toString(16).toUpperCase()}`).join(',');
  const source = `url(data:font/ttf;base64,${font.toString('base64')})`;
  return `@font-face{font-family:Tinos;${CSS_FACES[face]};unicode-range:${ranges};src:${source}}`;
};
