import { describe, expect, it } from 'vitest';
import { encodeText } from '../../../engine/score/file/decode.ts';
import { openScore, parseSource } from '../../../engine/score/open.ts';
import { buildArchive, containerXml, encode, rootFile } from './file/archive-builder.ts';
import { buildHarp, note, readScore } from './musicxml/musicxml-builder.ts';

/** What the bytes are taken for. */
const found = (input: string | Uint8Array): string => {
  const result = openScore(typeof input === 'string' ? encode(input) : input);
  if (result.ok) return 'a score';
  return result.problem.code === 'not-a-score' ? result.problem.found : result.problem.code;
};

describe('a file that is no score is named for what it is', () => {
  it.each([
    ['<!DOCTYPE html><html><br></html>', 'an HTML page'],
    ['\n<HTML lang="en"></HTML>', 'an HTML page'],
    ['%PDF-1.7', 'a PDF file'],
    ['MThd\0\0', 'a MIDI file'],
    ['{"a": 1}', 'a JSON file'],
    ['Lorem ipsum', 'a text file'],
    ['**kern\t**kern\n4c\t4e\n*-\t*-\n', 'a Humdrum file (**kern)'],
    ['!!!COM: A friend\n!!!OTL: Own\n**kern\n4c\n*-\n', 'a Humdrum file (**kern)'],
    ['<svg xmlns="http://www.w3.org/2000/svg"/>', 'an SVG picture'],
    ['<opus/>', 'a MusicXML opus, which only lists scores,'],
    ['<constructor/>', 'an XML file with the root element “constructor”'],
    ['', 'empty-input'],
    ['  \n', 'empty-input'],
    ['<score-partwise>', 'malformed-xml'],
    ['<score-partwise/>', 'no-parts'],
  ])('%s', (text, kind) => {
    expect(found(text)).toBe(kind);
  });

  it('also by its first bytes', () => {
    expect(found(Uint8Array.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a]))).toBe('a PNG picture');
    expect(found(Uint8Array.from([0xff, 0xd8, 0xff, 0xe0, 0, 0]))).toBe('a JPEG picture');
    expect(found(Uint8Array.from([0x1f, 0x8b, 8, 0]))).toBe('a gzip archive');
  });
});

describe('a score', () => {
  const xml = buildHarp(note('C4', 4));

  it('says its format, version and encoding', () => {
    const { source } = readScore(xml);
    expect([source.format, source.version, source.encoding, source.archivePath]).toEqual([
      'musicxml-partwise',
      '4.0',
      'utf-8',
      null,
    ]);
    expect(source.text).toBe(xml);
  });

  it('is read in UTF-16 and in an archive alike', () => {
    const utf16 = encodeText(`\uFEFF${xml.replace('UTF-8', 'UTF-16')}`, 'utf-16le');
    const archive = buildArchive({
      'META-INF/container.xml': containerXml(rootFile('s.xml')),
      's.xml': utf16,
    });
    for (const bytes of [utf16, archive]) {
      const result = openScore(bytes);
      expect(result.ok && result.value.notes).toHaveLength(1);
      expect(result.ok && result.value.source.encoding).toBe('utf-16le');
    }
    expect(parseSource(archive)).toMatchObject({ ok: true, value: { source: { archivePath: 's.xml' } } });
  });

  it('with a DOCTYPE is read; nothing that it names is fetched', () => {
    const doctype = '<!DOCTYPE score-partwise PUBLIC "-//X//DTD//EN" "http://example.invalid/partwise.dtd">';
    expect(found(xml.replace('<score-partwise', `${doctype}<score-partwise`))).toBe('a score');
  });

  it('with entities of its own is refused', () => {
    const doctype = '<!DOCTYPE score-partwise [<!ENTITY big "x">]>';
    const hostile = xml.replace('<score-partwise', `${doctype}<score-partwise`).replace('Harp', '&big;');
    expect(found(hostile)).toBe('entity-refused');
  });
});

describe('places in the text are exact to the character', () => {
  const body = note('C4', 2, { id: 'first' }) + note('D4', 2);

  it.each([
    ['plain', (xml: string) => xml],
    ['with a byte order mark', (xml: string) => `\uFEFF${xml}`],
    ['with CRLF', (xml: string) => xml.replaceAll('><', '>\r\n<')],
    ['with lone CR', (xml: string) => xml.replaceAll('><', '>\r<')],
    ['after characters beyond the BMP', (xml: string) => xml.replace('Harp', 'Harp 𝄪𝄪 é')],
    [
      'after comments, CDATA and processing instructions',
      (xml: string) =>
        xml.replace(
          '<part-list>',
          '<!-- < 𝄪 --><?x <a> ?><credit><credit-words><![CDATA[<note>]]></credit-words></credit><part-list>',
        ),
    ],
    ['after references', (xml: string) => xml.replace('Harp', 'Harp &amp; &#x1D12A;')],
  ])('%s', (_, change) => {
    const xml = change(buildHarp(body));
    const { notes, bars, source } = readScore(xml, 'P1');
    expect(source.text).toBe(xml);
    const starts = notes.map((each) => xml.slice(each.span.start, each.span.end));
    expect(starts.every((text) => text.startsWith('<note') && text.endsWith('</note>'))).toBe(true);
    expect(starts[0]).toContain('id="first"');
    expect(xml.slice(bars[0]!.span.start, bars[0]!.span.end)).toMatch(/^<measure[\s\S]*<\/measure>$/u);
  });
});
