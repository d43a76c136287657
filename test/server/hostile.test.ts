import { deflateRawSync } from 'node:zlib';
import { strToU8, zipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { checkDrawingLimits, DRAWING_LIMITS } from '../../engine/score/drawing-limits.ts';
import { crc32, unpackEntry } from '../../engine/score/file/unzip.ts';
import { openScore } from '../../engine/score/open.ts';
import type { Outcome } from '../../server/service-problem.ts';
import type { Reply } from '../../server/threads/job.ts';
import { expansionOf, longTitle, lyricsOn, voices } from '../bench/hostile-scores.ts';
import { buildHarp, note } from '../engine/score/musicxml/musicxml-builder.ts';
import { startPool } from './threads/real-pools.ts';

const pool = startPool('drawing-worker', { timeLimitMs: 30_000 });
afterAll(() => pool.close());

const forEver = new AbortController().signal;

const draw = (bytes: Uint8Array): Promise<Outcome<Reply>> =>
  pool.perform({ bytes, fileName: '', choice: {}, format: { kind: 'pdf' } }, forEver);

const ONE_BAR = buildHarp(note('C4', 4));

const scoreOf = (text: string) => {
  const opened = openScore(strToU8(text));
  if (!opened.ok) throw new Error(opened.problem.code);
  return opened.value;
};

const mei = (inner: string, scoreDef = '', staffDef = 'lines="5"'): string =>
  `<mei xmlns="http://www.music-encoding.org/ns/mei" meiversion="5.0"><meiHead><fileDesc><titleStmt><title/></titleStmt><pubStmt/></fileDesc></meiHead><music><body><mdiv><score><scoreDef ${scoreDef} meter.count="4" meter.unit="4"><staffGrp><staffDef n="1" ${staffDef} label="Harp" clef.shape="G" clef.line="2"/></staffGrp></scoreDef><section><measure n="1"><staff n="1"><layer n="1">${inner}</layer></staff></measure></section></score></mdiv></body></music></mei>`;

const QUARTER = '<note pname="c" oct="4" dur="4"/>';

const nestedTuplets = (depth: number): string =>
  `${'<tuplet num="3" numbase="2">'.repeat(depth)}${QUARTER}${'</tuplet>'.repeat(depth)}`;

const startedTuplets = (depth: number): string =>
  ONE_BAR.replace(
    '</note>',
    `<notations>${Array.from({ length: depth }, (_, i) => `<tuplet type="start" number="${i + 1}"/>`).join('')}</notations></note>`,
  );

const withDefaults = (defaults: string): string =>
  ONE_BAR.replace('<part-list>', `<defaults>${defaults}</defaults><part-list>`);

const withStaffLines = (lines: number | string): string =>
  ONE_BAR.replace(
    '</attributes>',
    `<staff-details><staff-lines>${lines}</staff-lines></staff-details></attributes>`,
  );

/** The layer that `mei` opens is closed, and others stand beside it. */
const layersOf = (count: number): string =>
  `${QUARTER}${Array.from({ length: count - 1 }, (_, i) => `</layer><layer n="${i + 2}">${i < 3 ? QUARTER : '<rest dur="4"/>'}`).join('')}`;

const versesOf = (count: number): string =>
  `<note pname="c" oct="4" dur="4">${'<verse><syl>la</syl></verse>'.repeat(count)}</note>`;

const withWords = (count: number): string =>
  ONE_BAR.replace(
    '<note>',
    `<direction><direction-type><words>${'harp '.repeat(count).trim()}</words></direction-type></direction><note>`,
  );

describe('a score that asks for more than a page can hold', () => {
  const tuplets = DRAWING_LIMITS['tuplet-nesting'];
  const lines = DRAWING_LIMITS['staff-lines'];
  const side = DRAWING_LIMITS['page-side'];

  it.each([
    [
      'tuplets in tuplets of MEI',
      'tuplet-nesting',
      mei(nestedTuplets(tuplets)),
      mei(nestedTuplets(tuplets + 1)),
      tuplets + 1,
    ],
    [
      'tuplets in tuplets of MusicXML',
      'tuplet-nesting',
      startedTuplets(tuplets),
      startedTuplets(tuplets + 1),
      tuplets + 1,
    ],
    ['staff lines of MEI', 'staff-lines', mei(QUARTER), mei(QUARTER, '', 'lines="1000000"'), 1_000_000],
    ['staff lines of MusicXML', 'staff-lines', withStaffLines(lines), withStaffLines(lines + 1), lines + 1],
    [
      'a page of MEI',
      'page-side',
      mei(QUARTER, 'page.height="2970"'),
      mei(QUARTER, 'page.height="1e9mm"'),
      1e9,
    ],
    [
      'a page of MusicXML',
      'page-side',
      withDefaults('<page-layout><page-height>1700</page-height><page-width>1200</page-width></page-layout>'),
      withDefaults(
        `<page-layout><page-height>1700</page-height><page-width>${side + 1}</page-width></page-layout>`,
      ),
      side + 1,
    ],
    ['voices of MusicXML', 'voices', voices(64), voices(65), 65],
    ['voices of MEI', 'voices', mei(layersOf(64)), mei(layersOf(1_000)), 1_000],
    ['lyrics of MusicXML', 'lyrics-on-note', lyricsOn(50), lyricsOn(20_000), 20_000],
    ['lyrics of MEI', 'lyrics-on-note', mei(versesOf(50)), mei(versesOf(51)), 51],
    ['an expansion', 'expansion-entries', expansionOf(2_000), expansionOf(100_000), 100_000],
    ['words', 'text-length', withWords(1_000), withWords(100_000), 499_999],
  ] as const)('by %s is refused with the limit and what was found', async (_what, what, good, bad, found) => {
    expect(checkDrawingLimits(scoreOf(good)).ok).toBe(true);
    const problem = { code: 'limit-exceeded', what, limit: DRAWING_LIMITS[what], found };
    expect(checkDrawingLimits(scoreOf(bad))).toEqual({ ok: false, problem });
    expect(await draw(strToU8(bad))).toEqual({ ok: false, problem });
  });

  it('does not count tuplets that follow one another', () => {
    const tuplet = '<tuplet num="3" numbase="2"><note pname="c" oct="4" dur="8"/></tuplet>';
    expect(checkDrawingLimits(scoreOf(mei(tuplet.repeat(20)))).ok).toBe(true);
    const started = ONE_BAR.replace(
      '</note>',
      `<notations>${'<tuplet type="start"/><tuplet type="stop"/>'.repeat(20)}</notations></note>`,
    );
    expect(checkDrawingLimits(scoreOf(started)).ok).toBe(true);
  });
});

/** An archive of one deflated file, whose directory claims what it likes. */
const archiveOf = (packed: Uint8Array, claimedBytes: number, crc: number): Uint8Array => {
  const real = zipSync({ 'a.xml': [packed, { level: 0 }] });
  const view = new DataView(real.buffer, real.byteOffset, real.byteLength);
  const directory = view.getUint32(real.length - 6, true);
  for (const [at, shift] of [
    [0, 0],
    [directory, 2],
  ] as const) {
    view.setUint16(at + 8 + shift, 8, true);
    view.setUint32(at + 14 + shift, crc, true);
    view.setUint32(at + 22 + shift, claimedBytes, true);
  }
  return real;
};

describe('a title of half a million words', () => {
  const bytes = strToU8(longTitle(500_000));

  it('is cut, and the reader told so', async () => {
    const { titles, remarks } = scoreOf(longTitle(500_000));
    expect(titles.title).toHaveLength(300);
    expect(remarks.map(({ code }) => code)).toContain('title-cut');
    const drawn = await draw(bytes);
    expect(drawn).toMatchObject({ ok: true });
    if (drawn.ok) expect(drawn.value.headers['Content-Disposition']!.length).toBeLessThan(1_000);
  });

  it('stands whole in the file that is given back', async () => {
    const marked = await pool.perform(
      { bytes, fileName: '', choice: {}, format: { kind: 'source', kinds: ['musicxml'] } },
      forEver,
    );
    expect(marked.ok && marked.value.body.byteLength > bytes.length).toBe(true);
  });

  it('is printed as it is where it is as long as titles are', () => {
    expect(scoreOf(longTitle(50)).titles.title).toBe('harp '.repeat(50).trim());
  });
});

describe('an archive that swells', () => {
  const HUGE = 300_000_000;
  let packed: Uint8Array;
  beforeAll(() => {
    packed = new Uint8Array(deflateRawSync(new Uint8Array(HUGE)));
  });

  it('is let go of at the limit, not after', async () => {
    const archive = archiveOf(packed, HUGE, 0);
    const before = process.memoryUsage().rss;
    const outcome = await draw(archive);
    expect(outcome).toMatchObject({
      ok: false,
      problem: { code: 'limit-exceeded', what: 'inflation-ratio', limit: 200 },
    });
    // The 300 MB that it would have become were never there.
    expect(process.memoryUsage().rss - before).toBeLessThan(150_000_000);
  });

  it('is let go of as soon as it is larger than it claims', async () => {
    const outcome = await draw(archiveOf(packed, 1_000, crc32(new Uint8Array(1_000))));
    expect(outcome).toMatchObject({
      problem: { code: 'archive-corrupt', message: expect.stringContaining('larger than the archive says') },
    });
  });

  it('stops within a few slices of a limit in bytes', () => {
    const packed = new Uint8Array(deflateRawSync(new Uint8Array(50_000_000)));
    const entry = {
      path: 'a.xml',
      encrypted: false,
      method: 8,
      crc32: 0,
      packedBytes: packed.length,
      inflatedBytes: 50_000_000,
      headerOffset: 0,
    };
    const archive = archiveOf(packed, 50_000_000, 0);
    const outcome = unpackEntry(archive, entry, { entries: 1, inflatedBytes: 2_000_000, ratio: 1e9 });
    expect(outcome).toMatchObject({ ok: false, problem: { what: 'inflated-bytes', limit: 2_000_000 } });
    if (!outcome.ok && outcome.problem.code === 'limit-exceeded') {
      expect(outcome.problem.found).toBeLessThan(8_000_000);
    }
  });

  it('may have paths that lead elsewhere: nothing is ever opened by them', async () => {
    const outcome = await draw(zipSync({ '../../../etc/passwd.xml': strToU8(ONE_BAR) }));
    expect(outcome.ok).toBe(true);
  });
});

describe('XML that would swell', () => {
  const head = '<?xml version="1.0"?>';
  const entities = '<!DOCTYPE s [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;&a;&a;">]>';

  it.each([
    [
      'entities in entities',
      `${head}${entities}<score-partwise><work><work-title>&b;</work-title></work></score-partwise>`,
      'entity-refused',
    ],
    [
      'a file of the machine',
      `${head}<!DOCTYPE s [<!ENTITY a SYSTEM "file:///etc/passwd">]><score-partwise>&a;</score-partwise>`,
      'entity-refused',
    ],
    ['elements in elements', `<score-partwise>${'<a>'.repeat(100_000)}`, 'limit-exceeded'],
  ])('by %s is refused', async (_what, text, code) => {
    expect(await draw(strToU8(text))).toMatchObject({ ok: false, problem: { code } });
  });

  it('is read where it merely names its type', async () => {
    const named = ONE_BAR.replace(
      '<score-partwise',
      '<!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN" "http://127.0.0.1:9/partwise.dtd"><score-partwise',
    );
    expect((await draw(strToU8(named))).ok).toBe(true);
  });
});

describe('a score that only leaves out what it should say', () => {
  it.each([
    ['the list of its parts', ONE_BAR.replace(/<part-list>.*<\/part-list>/s, '')],
    ['its part in that list', ONE_BAR.replace(/<score-part .*<\/score-part>/s, '')],
  ])('is drawn without %s', async (_what, text) => {
    expect(text).not.toBe(ONE_BAR);
    const part = /<part id="([^"]*)"/.exec(text)![1]!;
    const drawn = await pool.perform(
      { bytes: strToU8(text), fileName: '', choice: { part }, format: { kind: 'pdf' } },
      forEver,
    );
    expect(drawn).toMatchObject({ ok: true });
  });
});
