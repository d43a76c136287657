import { execFileSync, spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Annotation } from '../../../render/annotation.ts';
import { hasChromium } from '../../chromium.ts';
import { annotateBytes } from '../annotate-bytes.ts';
import { darkShare, differenceOf, drawPdf, drawSvg } from '../picture.ts';
import { annotator } from '../shared-annotator.ts';

const has = (program: string, ...argument: string[]): boolean => spawnSync(program, argument).status === 0;
const hasTools = hasChromium && has('pdftoppm', '-v') && has('pdffonts', '-v');

/** Share of pixels of a page in which PDF and SVG may differ; measured on the demo: none. */
const MOST_DIFFERENT = 0.0001;

let demo: Annotation;

beforeAll(async () => {
  const bytes = new Uint8Array(
    readFileSync(new URL('../../../server/demo/lanterns-at-the-lock.musicxml', import.meta.url)),
  );
  const annotated = await annotateBytes(annotator, bytes, {}, 'pdf');
  if (!annotated.ok) throw new Error(JSON.stringify(annotated.problem));
  demo = annotated.value;
});

const ask = (program: string, ...more: string[]): string =>
  execFileSync(program, [...more, '-'], { input: demo.pdf! }).toString();

describe.skipIf(!hasTools)('the PDF of the demo (skipped without Chromium or Poppler)', () => {
  it('shows the same as the SVG, page by page', () => {
    const pictures = drawPdf(demo.pdf!);
    expect(pictures).toHaveLength(demo.pages.length);
    pictures.forEach((picture, i) => {
      const svg = drawSvg(demo.pages[i]!, picture);
      expect([svg.width, svg.height]).toEqual([picture.width, picture.height]);
      expect(darkShare(picture)).toBeGreaterThan(0.005);
      const { share, where } = differenceOf(picture, svg);
      console.info(`page ${i + 1}: ${(share * 100).toFixed(4)} % of the pixels differ`);
      expect(share, `page ${i + 1}, ${where}`).toBeLessThan(MOST_DIFFERENT);
    });
  });

  it('differs from another page, so the measure sees something', () => {
    const [first] = drawPdf(demo.pdf!);
    const { share } = differenceOf(first!, drawSvg(demo.pages[1]!, first!));
    expect(share).toBeGreaterThan(50 * MOST_DIFFERENT);
  });

  it('embeds all its fonts and holds no image', () => {
    const fonts = ask('pdffonts').trim().split('\n').slice(2);
    expect(fonts.length).toBeGreaterThan(0);
    // Tinos for words; Bravura for the signs of text that is not seen.
    for (const font of fonts)
      expect(font).toMatch(
        /\+(?:Tinos-\S+\s+CID TrueType|Bravura\S*\s+CID Type 0C)\s+Identity-H\s+yes yes yes/,
      );
    expect(ask('pdfimages', '-list').trim().split('\n').slice(2)).toEqual([]);
  });

  it('has text to select, its title, author and language, and one page size', () => {
    expect(ask('pdftotext', '-')).toContain('leggiero');
    expect(ask('pdftotext', '-')).toMatch(/^ *D♮ C♮ B♭ \| E♭ F♮ G♮ A♭[\s\S]*^ *B♮ */m);
    const info = ask('pdfinfo', '-l', '99');
    expect(info).toMatch(/Title:\s+Lanterns at the Lock/);
    expect(info).toMatch(/Author:\s+tringle demo/);
    const sizes = [...info.matchAll(/Page\s+\d+ size:\s+(.*)/g)].map((match) => match[1]);
    expect(sizes).toHaveLength(demo.pages.length);
    expect(new Set(sizes).size).toBe(1);
    expect(Buffer.from(demo.pdf!).toString('latin1')).toMatch(/\/Lang\s*\(en/);
  });

  it('has a bookmark at every rehearsal mark', () => {
    const outline = Buffer.from(demo.pdf!).toString('latin1');
    const titles = [...outline.matchAll(/\/Title\s*\(([^)]*)\)/g)].map((match) => match[1]);
    for (const mark of ['A', 'B', 'C', 'D', 'E']) expect(titles).toContain(mark);
  });
});
