import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { TEXT_FACES } from '../../render/text/fonts.ts';
import { glyphPath, hasGlyph, hasTextGlyph, textOutline, textWidth } from '../../render/text/glyphs.ts';
import type { Box } from '../../render/text/outline.ts';
import { cases } from '../thorough.ts';

/** Extent of path data by its end and control points: enough to tell which way up an outline is. */
const extentOf = (pathData: string): Box => {
  const numbers = (pathData.match(/-?\d+(?:\.\d+)?/g) ?? []).map(Number);
  const xs = numbers.filter((_, index) => index % 2 === 0);
  const ys = numbers.filter((_, index) => index % 2 === 1);
  return { x0: Math.min(...xs), y0: Math.min(...ys), x1: Math.max(...xs), y1: Math.max(...ys) };
};

describe('the marks of harp pedals (SMuFL 1.4, U+E680 to U+E683; boxes measured in Bravura, y downward)', () => {
  const tops = {
    flat: [0xe680, -656, -360],
    natural: [0xe681, -500, -250],
    sharp: [0xe682, -390, -92],
    divider: [0xe683, -750, 0],
  } as const;

  it.each(Object.entries(tops))('%s stands at its height', (_, [codepoint, top, bottom]) => {
    const { box } = glyphPath(codepoint);
    expect([box.y0, box.y1]).toEqual([top, bottom]);
  });

  it('flat rises above the line, natural crosses it, sharp hangs below it', () => {
    // The line is the one at 360 to 390 units in each of the three.
    expect(glyphPath(0xe680).box.y1).toBeLessThanOrEqual(-360);
    expect(glyphPath(0xe681).box.y0).toBeLessThan(-390);
    expect(glyphPath(0xe681).box.y1).toBeGreaterThan(-360);
    expect(glyphPath(0xe682).box.y0).toBeGreaterThanOrEqual(-390);
  });

  it('the outline fills the box that is told', () => {
    for (const codepoint of [0xe680, 0xe682, 0xe260]) {
      const { box, pathData } = glyphPath(codepoint);
      const extent = extentOf(pathData);
      expect(Math.abs(extent.y0 - box.y0)).toBeLessThanOrEqual(1);
      expect(Math.abs(extent.y1 - box.y1)).toBeLessThanOrEqual(1);
    }
  });

  it('the stroke of the flat mark is drawn above its line, not turned upside down', () => {
    const [stroke, line] = glyphPath(0xe680).pathData.split('M').slice(1).map(extentOf);
    expect(stroke!.y1).toBeLessThan(line!.y0);
  });
});

describe('accidentals', () => {
  // Advances read from Bravura's horizontal metrics.
  it.each([
    ['flat', 0xe260, 226],
    ['natural', 0xe261, 168],
    ['sharp', 0xe262, 249],
  ])('%s advances by its width in Bravura', (_, codepoint, advance) => {
    expect(glyphPath(codepoint).advance).toBe(advance);
  });

  it("a flat's stem points up: its ink reaches higher above the origin than below", () => {
    const { box } = glyphPath(0xe260);
    expect(-box.y0).toBeGreaterThan(2 * box.y1);
  });

  it('a character that is not music is refused by name', () => {
    expect(hasGlyph(0x41)).toBe(false);
    expect(() => glyphPath(0x41)).toThrow('U+41');
  });
});

describe('words in Tinos', () => {
  it('capitals stand on the baseline and rise two thirds of the em', () => {
    // Cap height of Tinos: 1341 of 2048 units, read from the font.
    const extent = extentOf(textOutline('H', { style: 'regular', sizeUnits: 100 }).pathData);
    expect(extent.y1).toBeCloseTo(0, 5);
    expect(-extent.y0).toBeCloseTo((1341 / 2048) * 100, 0);
  });

  it('the foot of an L reaches right on the baseline, so letters are not upside down', () => {
    const { pathData } = textOutline('L', { style: 'regular', sizeUnits: 100 });
    const points = [...pathData.matchAll(/(-?[\d.]+)[ ]?(-?[\d.]+)/g)].map(([, x, y]) => ({
      x: Number(x),
      y: Number(y),
    }));
    const rightmost = points.reduce((best, each) => (each.x > best.x ? each : best));
    expect(rightmost.y).toBeGreaterThan(-30);
  });

  it('letters that fit into each other are kerned', () => {
    const width = (text: string): number => textWidth(text, { style: 'regular', sizeUnits: 1000 });
    expect(width('AV')).toBeLessThan(width('A') + width('V'));
  });

  it('bold is another outline than regular, and wider', () => {
    const regular = textOutline('D', { style: 'regular', sizeUnits: 1000 });
    const bold = textOutline('d', { style: 'bold', sizeUnits: 1000 });
    expect(bold.pathData).not.toBe(regular.pathData);
    expect(textWidth('d', { style: 'bold', sizeUnits: 1000 })).toBeGreaterThan(
      textWidth('d', { style: 'regular', sizeUnits: 1000 }),
    );
  });

  it('knows which characters it lacks', () => {
    expect(hasTextGlyph('é', 'regular')).toBe(true);
    expect(hasTextGlyph('字', 'regular')).toBe(false);
  });

  it('an outline is as wide as the width that is told, and twice the size is twice as wide, for any text', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }), fc.constantFrom(...TEXT_FACES), (text, style) => {
        const width = textWidth(text, { style, sizeUnits: 100 });
        expect(textOutline(text, { style, sizeUnits: 100 }).width).toBeCloseTo(width, 6);
        expect(textWidth(text, { style, sizeUnits: 200 })).toBeCloseTo(2 * width, 6);
      }),
      { numRuns: cases(200) },
    );
  });
});
