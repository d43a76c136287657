import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { type Font, parse } from 'opentype.js/dist/opentype.mjs';

/** The faces of the text font. */
export type TextFace = 'regular' | 'bold' | 'italic' | 'bold-italic';

/** A font that is shipped with the program: SMuFL's Bravura for music, Tinos for words (both OFL-1.1). */
export type FontName = 'music' | TextFace;

/** Families for words, the best match first: the later ones have the advance widths of Tinos. */
export const TEXT_FAMILIES = "Tinos, 'Liberation Serif', 'Times New Roman', serif";

/** The family of the music font. */
export const MUSIC_FAMILY = 'Bravura';

const FONT_FILES: Readonly<Record<FontName, string>> = {
  music: '@vexflow-fonts/bravura/bravura.otf',
  regular: '@expo-google-fonts/tinos/400Regular/Tinos_400Regular.ttf',
  bold: '@expo-google-fonts/tinos/700Bold/Tinos_700Bold.ttf',
  italic: '@expo-google-fonts/tinos/400Regular_Italic/Tinos_400Regular_Italic.ttf',
  'bold-italic': '@expo-google-fonts/tinos/700Bold_Italic/Tinos_700Bold_Italic.ttf',
};

export const TEXT_FACES: readonly TextFace[] = ['regular', 'bold', 'italic', 'bold-italic'];

const { resolve } = createRequire(import.meta.url);

const files = new Map<FontName, Buffer>();

/**
 * The bytes of a font file, found through the package that ships it, so that it works from any build folder; read once,
 * since every score is drawn with it.
 */
export const readFontFile = (name: FontName): Buffer => {
  const bytes = files.get(name) ?? readFileSync(resolve(FONT_FILES[name]));
  files.set(name, bytes);
  return bytes;
};

const parsed = new Map<FontName, Font>();

/** The font, parsed when first asked for (10 to 30 ms each) and kept. */
export const loadFont = (name: FontName): Font => {
  const known = parsed.get(name);
  if (known !== undefined) return known;
  const bytes = readFontFile(name);
  // Glyphs one by one as they are asked for: of some three thousand a page shows a hundred.
  const font = parse(new Uint8Array(bytes).buffer, { lowMemory: true });
  parsed.set(name, font);
  return font;
};
