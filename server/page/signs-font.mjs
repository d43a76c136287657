// Makes the font of the page's own words for double accidentals, which the fonts of most machines lack: Bravura's outlines
// (SMuFL U+E263, U+E264) under their Unicode characters, as high among letters as on the printed pages.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { Font, Glyph, Path, parse } from 'opentype.js/dist/opentype.mjs';

const SIGNS = [
  { unicode: 0x1d12a, smufl: 0xe263, name: 'doubleSharp' },
  { unicode: 0x1d12b, smufl: 0xe264, name: 'doubleFlat' },
];

/**
 * Size beside the letters (larger than on paper, as a screen has fewer dots), half the height of their capitals, and room
 * at either side, in ems: see `render/text/text-signs.ts`.
 */
const SIZE = 1.6;
const HALF_CAPITAL = 0.327;
const SIDE_ROOM = 0.05;

/** @returns the bytes of the font */
export const makeSignsFont = () => {
  const file = readFileSync(createRequire(import.meta.url).resolve('@vexflow-fonts/bravura/bravura.otf'));
  const { buffer, byteOffset, byteLength } = file;
  const bravura = parse(buffer.slice(byteOffset, byteOffset + byteLength));
  const { unitsPerEm: em } = bravura;
  const glyphs = SIGNS.map(({ unicode, smufl, name }) => {
    const source = bravura.charToGlyph(String.fromCodePoint(smufl));
    const box = source.getBoundingBox();
    const middle = ((box.y1 + box.y2) / 2) * SIZE;
    // Outlines are drawn downwards, fonts upwards.
    const outline = source.getPath(0, 0, em * SIZE);
    const path = new Path();
    const x = (value) => value + SIDE_ROOM * em - box.x1 * SIZE;
    const y = (value) => -value + HALF_CAPITAL * em - middle;
    for (const step of outline.commands) {
      if (step.type === 'M') path.moveTo(x(step.x), y(step.y));
      else if (step.type === 'L') path.lineTo(x(step.x), y(step.y));
      else if (step.type === 'C')
        path.curveTo(x(step.x1), y(step.y1), x(step.x2), y(step.y2), x(step.x), y(step.y));
      else if (step.type === 'Q') path.quadraticCurveTo(x(step.x1), y(step.y1), x(step.x), y(step.y));
      else path.closePath();
    }
    const advanceWidth = Math.round((box.x2 - box.x1) * SIZE + 2 * SIDE_ROOM * em);
    return new Glyph({ name, unicode, advanceWidth, path });
  });
  const missing = new Glyph({ name: '.notdef', advanceWidth: em / 2, path: new Path() });
  const font = new Font({
    familyName: 'Music signs',
    styleName: 'Regular',
    unitsPerEm: em,
    ascender: Math.round(em * 0.9),
    descender: -Math.round(em * 0.2),
    glyphs: [missing, ...glyphs],
  });
  return new Uint8Array(font.toArrayBuffer());
};
