import { type Font, type Glyph as FontGlyph, Path } from 'opentype.js/dist/opentype.mjs';
import { loadFont, type TextFace } from './fonts.ts';
import type { Box, Glyph } from './outline.ts';

/** A line of words as an outline: y downward, the origin at the start of the baseline. */
export interface TextOutline {
  readonly pathData: string;
  readonly width: number;
}

const UNITS_PER_EM = 1000;

/** A tenth of a unit of the music font, a thousandth of the caller's unit. */
const MUSIC_PATH = { decimalPlaces: 1, optimize: true, flipY: false } as const;
const WORDS_PATH = { decimalPlaces: 3, optimize: true, flipY: false } as const;

const known = new Map<number, Glyph>();

/** Whether the music font draws this character. */
export const hasGlyph = (codepoint: number): boolean =>
  loadFont('music').hasChar(String.fromCodePoint(codepoint));

/**
 * The outline of a SMuFL character in Bravura, such as U+E680 to U+E683 (the marks of harp pedals) or U+E260 to
 * U+E262 (flat, natural, sharp).
 *
 * @param codepoint a character for which `hasGlyph` holds; any other is a bug and throws
 */
export const glyphPath = (codepoint: number): Glyph => {
  const cached = known.get(codepoint);
  if (cached !== undefined) return cached;
  if (!hasGlyph(codepoint))
    throw new Error(`Bravura has no glyph at U+${codepoint.toString(16).toUpperCase()}`);
  const font = loadFont('music');
  const scale = UNITS_PER_EM / font.unitsPerEm;
  const source = font.charToGlyph(String.fromCodePoint(codepoint));
  const outline = source.getPath(0, 0, UNITS_PER_EM);
  const glyph: Glyph = {
    pathData: outline.toPathData(MUSIC_PATH),
    advance: source.advanceWidth * scale,
    box: boxOf(source, scale),
  };
  known.set(codepoint, glyph);
  return glyph;
};

const boxOf = (glyph: FontGlyph, scale: number): Box => {
  const { x1, y1, x2, y2 } = glyph.getBoundingBox();
  // 0 - y, not -y: an edge on the baseline is 0, not minus 0.
  return { x0: x1 * scale, y0: 0 - y2 * scale, x1: x2 * scale, y1: 0 - y1 * scale };
};

/** Whether the text font draws this character in the given face. */
export const hasLetter = (character: string, face: TextFace): boolean => loadFont(face).hasChar(character);

interface PlacedLetter {
  readonly glyph: FontGlyph;
  readonly x: number;
}

/** Letters one after the other with kerning, in font units; the end is where a next letter would start. */
const placeLetters = (
  font: Font,
  text: string,
): { readonly letters: readonly PlacedLetter[]; readonly end: number } => {
  const letters: PlacedLetter[] = [];
  let end = 0;
  for (const character of text) {
    const glyph = font.charToGlyph(character);
    const before = letters.at(-1);
    if (before !== undefined) end += font.getKerningValue(before.glyph, glyph);
    letters.push({ glyph, x: end });
    end += glyph.advanceWidth;
  }
  return { letters, end };
};

/** How far a line of words reaches in Tinos, in the unit of `sizeUnits`; characters Tinos lacks count as its empty box. */
export const textWidth = (
  text: string,
  options: { readonly style: TextFace; readonly sizeUnits: number },
): number => {
  const font = loadFont(options.style);
  return (placeLetters(font, text).end * options.sizeUnits) / font.unitsPerEm;
};

/**
 * A line of words in Tinos as an outline, with kerning.
 *
 * @param options.sizeUnits the em in the caller's unit, which is also the unit of the result
 */
export const textOutline = (
  text: string,
  options: { readonly style: TextFace; readonly sizeUnits: number },
): TextOutline => {
  const font = loadFont(options.style);
  const scale = options.sizeUnits / font.unitsPerEm;
  const { letters, end } = placeLetters(font, text);
  const outline = new Path();
  for (const { glyph, x } of letters) outline.extend(glyph.getPath(x * scale, 0, options.sizeUnits));
  return { pathData: outline.toPathData(WORDS_PATH), width: end * scale };
};
