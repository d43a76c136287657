import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  breakLines,
  breakTitle,
  shortenTitle,
  type TitleSpace,
} from '../../../render/part/texts/title-lines.ts';
import { textWidth } from '../../../render/text/glyphs.ts';

const A4: TitleSpace = { widthMm: 186, emMm: 4.8 };

const widthMm = (line: string): number => textWidth(line, { style: 'regular', sizeUnits: A4.emMm });

const title = fc
  .array(fc.stringMatching(/^[A-Za-zÀ-ÿ,.]{1,14}$/), { minLength: 1, maxLength: 40 })
  .map((words) => words.join(' '));

describe('a title', () => {
  it('stays on one line where it fits', () => {
    expect(breakTitle('Lanterns at the Lock', A4)).toEqual(['Lanterns at the Lock']);
    expect(shortenTitle('Lanterns at the Lock', A4)).toBe('Lanterns at the Lock');
  });

  it('never runs over the margin, loses no word on up to four lines, and is cut beyond', () => {
    fc.assert(
      fc.property(title, (text) => {
        const lines = breakTitle(text, A4);
        expect(lines.length).toBeLessThanOrEqual(4);
        for (const line of lines) expect(widthMm(line.replace(/ …$/, ''))).toBeLessThanOrEqual(A4.widthMm);
        if (!lines.at(-1)!.endsWith('…')) expect(lines.join(' ')).toBe(text);
      }),
    );
  });

  it('breaks a word that is wider than the line, such as an address, and loses none of it', () => {
    const address = `https://library.example/${'lookup/'.repeat(40)}436708`;
    const lines = breakLines(`Source: ${address}`, A4);
    expect(lines.length).toBeGreaterThan(1);
    for (const line of lines) expect(widthMm(line)).toBeLessThanOrEqual(A4.widthMm);
    expect(lines.join('').replace(' ', '')).toBe(`Source:${address}`);
  });

  it('stands on later pages on one line beside the page number', () => {
    fc.assert(
      fc.property(title, (text) => {
        const short = shortenTitle(text, A4);
        expect(widthMm(short)).toBeLessThanOrEqual(A4.widthMm);
        expect(text.startsWith(short.replace(/ …$/, ''))).toBe(true);
      }),
    );
  });
});
