import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { DEFAULT_ENGRAVING } from '../../../render/engraving-options.ts';
import { pageLayoutOf } from '../../../render/layout/breaks/page-layout.ts';
import { startEngraver } from '../../../render/layout/drawer/verovio.ts';
import { describePage } from '../../../render/printed/page-description.ts';
import { checkForReaders, renderPdf } from '../../../render/printed/pdf.ts';
import { finishPage } from '../../../render/text/finish-page.ts';

const hasPdfinfo = spawnSync('pdfinfo', ['-v']).status === 0;
const hasQpdf = spawnSync('qpdf', ['--version']).status === 0;

const A4 = { widthMm: 210, heightMm: 297 };
const PART = pageLayoutOf(DEFAULT_ENGRAVING);
const META = { title: 'Rain on the Weir', author: 'N. N.', date: { year: 2026, month: 1, day: 31 } };

const pageSaying = (words: string): string =>
  finishPage(`<svg xmlns="http://www.w3.org/2000/svg" width="210mm" height="297mm" viewBox="0 0 2100 2970">
    <text x="200" y="200" font-size="0px" font-family="Times"><tspan font-size="60px">${words}</tspan></text>
  </svg>`).svg;

const sameBytes = (a: Uint8Array, b: Uint8Array): boolean => Buffer.compare(a, b) === 0;

describe('a PDF', () => {
  it('of the same pages has the same bytes', () => {
    const pages = [pageSaying('Lento'), pageSaying('B♭')];
    const first = renderPdf(pages, A4, META);
    expect(renderPdf([pageSaying('Presto')], A4, META).length).toBeGreaterThan(0);
    expect(sameBytes(renderPdf(pages, A4, META), first)).toBe(true);
  });

  it('is one for archives and screen readers, without signs of no meaning, and an ordinary one where a letter has no font', () => {
    const standardOf = (words: string): string =>
      /<pdfaid:part>(\d)<.*?<pdfaid:conformance>(\w)</s
        .exec(Buffer.from(renderPdf([pageSaying(words)], A4, META)).toString('latin1'))
        ?.slice(1)
        .join('') ?? 'none';
    expect(standardOf('Lento')).toBe('2A');
    expect(standardOf('Lento \u{10FFFD}')).toBe('2A');
    expect(standardOf('Lento \u{13000}')).toBe('none');
  });

  it('names the standard for readers as well, shows its title, and says nothing of suspects', () => {
    const text = Buffer.from(renderPdf([pageSaying('Lento')], A4, META)).toString('latin1');
    const catalog = text.slice(text.lastIndexOf('/Type /Catalog'));
    expect(catalog.slice(0, catalog.indexOf('endobj'))).toContain('/DisplayDocTitle true');
    expect(catalog).not.toContain('/Suspects');
    expect(text.slice(text.lastIndexOf('<?xpacket begin'))).toMatch(/<pdfuaid:part>1<.*<pdfaid:part>2</s);
    // A heading that skips a level breaks ISO 14289-1, and an untitled document has nothing to show.
    const at = { page: 0, topMm: 0 };
    const claims = (pdf: Uint8Array): boolean =>
      Buffer.from(pdf).toString('latin1').includes('<pdfuaid:part>');
    expect(claims(renderPdf([pageSaying('x')], A4, META, [{ ...at, text: 'A', level: 2 }]))).toBe(false);
    expect(claims(renderPdf([pageSaying('x')], A4, { ...META, title: '' }))).toBe(false);
  });

  it('keeps the rules for readers, as Typst checks them', () => {
    const checked = checkForReaders([pageSaying('Lento'), pageSaying('B♭')], A4, META, [
      { text: 'Rain', page: 0, topMm: 0, level: 1 },
      { text: 'A', page: 1, topMm: 9, level: 2 },
    ]);
    expect(checked).toBe('');
    expect(checkForReaders([pageSaying('x')], A4, { ...META, title: '' })).toMatch(/title/);
  });

  it('tells what each page shows, every marking with its bar', () => {
    const marked = pageSaying('x').replace(
      '</svg>',
      '<g id="m" data-bar="7" role="img"><title>Pedal change A♭ &amp; so on</title></g></svg>',
    );
    expect(describePage(marked, 'Rain', 2)).toBe('Rain, page 2. Bar 7: Pedal change A♭ & so on');
    expect(describePage(marked, 'Regen', 2, 'german')).toMatch(/^Regen, Seite 2. Takt 7: /);
  });

  it.skipIf(!hasPdfinfo)('is read by Poppler without a complaint (skipped without it)', () => {
    const folder = mkdtempSync(join(tmpdir(), 'tringle-pdf-'));
    const path = join(folder, 'page.pdf');
    writeFileSync(path, renderPdf([pageSaying('Lento')], A4, META));
    const { stdout, stderr } = spawnSync('pdfinfo', ['-struct-text', path], { encoding: 'utf8' });
    expect(stderr).toBe('');
    expect(stdout).toMatch(/Document\s+Figure/);
    rmSync(folder, { recursive: true });
  });

  it.skipIf(!hasQpdf)('has no fault of syntax for qpdf (skipped without it)', () => {
    const folder = mkdtempSync(join(tmpdir(), 'tringle-pdf-'));
    const path = join(folder, 'page.pdf');
    writeFileSync(path, renderPdf([pageSaying('Lento'), pageSaying('Presto')], A4, META));
    const { status, stdout, stderr } = spawnSync('qpdf', ['--check', path], { encoding: 'utf8' });
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
    expect(stdout).toContain('No syntax or stream encoding errors found');
    rmSync(folder, { recursive: true });
  });

  it('of other pages has other bytes, though the files in memory have the same names', () => {
    expect(
      sameBytes(renderPdf([pageSaying('Lento')], A4, META), renderPdf([pageSaying('Presto')], A4, META)),
    ).toBe(false);
  });

  it('is refused, with the reason, for a page that is no SVG', () => {
    expect(() => renderPdf(['<svg'], A4, META)).toThrow(/Typst refused the pages: .*SVG/);
  });

  it('never shows the pages of a job before it', () => {
    renderPdf([pageSaying('one'), pageSaying('two')], A4, META);
    expect(() => renderPdf(['<svg', pageSaying('three')], A4, META)).toThrow('SVG');
    expect(() => renderPdf([], A4, META)).toThrow('at least one page');
  });
});

const poppler = ['pdfinfo', 'pdffonts', 'pdftotext', 'pdfimages'].every(
  (tool) => spawnSync(tool, ['-v']).error === undefined,
);
if (!poppler) console.warn('skipped: what readers see of a PDF, because poppler-utils is not installed');

/** An own example with what is easily lost on the way: a tempo mark, dynamics, a fingering, a tuplet, accidentals. */
const SAMPLE = `<?xml version="1.0" encoding="UTF-8"?>
<mei xmlns="http://www.music-encoding.org/ns/mei" meiversion="5.0"><meiHead><fileDesc>
<titleStmt><title>Weir in B♭</title></titleStmt><pubStmt/></fileDesc></meiHead>
<music><body><mdiv><score><scoreDef meter.count="2" meter.unit="4">
<pgHead><rend halign="center">Weir in B♭</rend></pgHead><staffGrp>
<staffDef n="1" lines="5" clef.shape="G" clef.line="2"/></staffGrp></scoreDef><section><measure n="1">
<staff n="1"><layer n="1"><tuplet num="3" numbase="2"><note xml:id="a" dur="8" oct="4" pname="c"/>
<note dur="8" oct="4" pname="e"/><note dur="8" oct="4" pname="g"/></tuplet><note dur="4" oct="5" pname="c"/></layer></staff>
<tempo staff="1" tstamp="1" midi.bpm="72" mm="72" mm.unit="4">Quietly ♩ = 72</tempo>
<dynam staff="1" tstamp="1" place="below">mf</dynam><dynam staff="1" tstamp="2" place="below">p dolce</dynam>
<fing startid="#a" staff="1">4</fing>
</measure></section></score></mdiv></body></music></mei>`;

describe.skipIf(!poppler)('what readers see of a PDF (poppler)', () => {
  const folder = mkdtempSync(join(tmpdir(), 'tringle-pdf-'));
  let page = '';

  beforeAll(async () => {
    const engraver = await startEngraver();
    const [system] = engraver.drawPages(SAMPLE, PART)!;
    // A system is as high as what it holds: here it stands on a whole page.
    const onPaper = system!
      .replace(/ height="[\d.]+mm"/, ' height="297mm"')
      .replace(/viewBox="0 0 21000 \d+"/, 'viewBox="0 0 21000 29700"');
    page = finishPage(onPaper).svg;
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  const read = (pdf: Uint8Array, tool: string, options: readonly string[] = []): Buffer => {
    const file = join(folder, 'page.pdf');
    writeFileSync(file, pdf);
    const paths = tool === 'pdftotext' ? [file, '-'] : [file];
    return execFileSync(tool, [...options, ...paths], {
      stdio: ['ignore', 'pipe', 'ignore'],
      maxBuffer: 64 * 1024 * 1024,
    });
  };

  it('every font is embedded: Tinos, and Bravura for the accidentals that a search finds', () => {
    const lines = read(renderPdf([page], A4, META), 'pdffonts')
      .toString()
      .trim()
      .split('\n')
      .slice(2);
    expect(lines.length).toBeGreaterThan(1);
    for (const line of lines) expect(line).toMatch(/^\w+\+(Tinos|Bravura)-[\w-]+ .* yes yes yes /);
  });

  it('nothing is a bitmap', () => {
    expect(
      read(renderPdf([page], A4, META), 'pdfimages', ['-list'])
        .toString()
        .trim()
        .split('\n'),
    ).toHaveLength(2);
  });

  it('the words can be selected: tempo, dynamics, fingering, title', () => {
    const text = read(renderPdf([page], A4, META), 'pdftotext').toString();
    for (const words of ['Quietly', '= 72', 'dolce', 'Weir in B', '4']) expect(text).toContain(words);
  });

  it("the tempo mark's note, a dynamic among words and the title's flat are ink where the page has them", () => {
    const raster = readGraymap(read(renderPdf([page], A4, META), 'pdftoppm', ['-r', '254', '-gray']));
    // At 254 dpi a pixel is 0.1 mm, ten of the page's units; Verovio moves all by the margin.
    const margin = PART.marginMm * 10;
    const outlines = [
      ...page.matchAll(/<path transform="translate\(([\d.]+), ([\d.]+)\) scale\(([\d.]+)\)"/g),
    ];
    // A dynamic that stands alone is a glyph of Verovio's own: the note, the p before “dolce” and the flat remain.
    expect(outlines).toHaveLength(3);
    for (const [, x, y, scale] of outlines) {
      const left = margin + Number(x) / 10;
      const base = margin + Number(y) / 10;
      const em = Number(scale) * 100;
      expect(countInk(raster, left, base - em / 4, left + em / 4, base + em / 4)).toBeGreaterThan(20);
    }
  });

  it('a page has exactly the size of the paper, and there are as many as were given', () => {
    const letter = { widthMm: 215.9, heightMm: 279.4 };
    const info = read(renderPdf([page, page, page], letter, META), 'pdfinfo').toString();
    expect(info).toMatch(/Page size: +612 x 792 pts/);
    expect(info).toMatch(/Pages: +3\n/);
    expect(read(renderPdf([page], A4, META), 'pdfinfo').toString()).toMatch(
      /Page size: +595\.276 x 841\.89 pts/,
    );
  });

  it.each([
    'She said "no" \\ #panic("x") $a$ *b* _c_ ]) @d <e> // f',
    '#{ read("/etc/passwd") }',
    '"); #panic("',
    'Łódź — 夜 — 😀',
  ])('a hostile title stays a title: %s', (title) => {
    const info = read(
      renderPdf([page], A4, { ...META, title, author: title, subject: title }),
      'pdfinfo',
    ).toString();
    for (const field of ['Title', 'Author', 'Subject'])
      expect(info).toMatch(new RegExp(`^${field}: +${literally(title)}$`, 'm'));
  });

  it('characters that a PDF cannot hold in its title are marked as such', () => {
    const info = read(renderPdf([page], A4, { ...META, title: 'a\u0000b\ud800c' }), 'pdfinfo').toString();
    expect(info).toMatch(/^Title: +a\uFFFDb\uFFFDc$/m);
  });

  it('has the date that it was given, and not that of the clock', () => {
    expect(read(renderPdf([page], A4, META), 'pdfinfo').toString()).toMatch(/CreationDate: .*Jan 31 .*2026/);
  });
});

const literally = (text: string): string => text.replace(/[\\^$.*+?()[\]{}|/]/g, '\\$&');

interface Graymap {
  readonly width: number;
  readonly pixels: Uint8Array;
}

/** A binary portable graymap (P5, 8 bits), as pdftoppm writes it. */
const readGraymap = (bytes: Buffer): Graymap => {
  const header = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(bytes.subarray(0, 64).toString('latin1'))!;
  return { width: Number(header[1]), pixels: bytes.subarray(header[0].length) };
};

/** Dark pixels in a rectangle. */
const countInk = ({ pixels, width }: Graymap, x0: number, y0: number, x1: number, y1: number): number => {
  let dark = 0;
  for (let y = Math.round(y0); y < y1; y += 1) {
    for (let x = Math.round(x0); x < x1; x += 1) if (pixels[y * width + x]! < 128) dark += 1;
  }
  return dark;
};
