import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { problemMessage } from '../../../../engine/problem.ts';
import { unpackScore } from '../../../../engine/score/file/container.ts';
import { ARCHIVE_LIMITS } from '../../../../engine/score/file/unzip.ts';
import { cases } from '../../../thorough.ts';
import {
  asZip64,
  bombOf,
  buildArchive,
  containerXml,
  encode,
  patchDirectory,
  rootFile,
} from './archive-builder.ts';

const SCORE = '<score-partwise/>';

/** The path taken from the archive, or the problem. */
const taken = (bytes: Uint8Array): string => {
  const result = unpackScore(bytes);
  return result.ok ? `${result.value.archivePath}` : result.problem.code;
};

describe('the score in an archive', () => {
  it('is the first root file that is MusicXML; no media type means MusicXML', () => {
    const files = { 'a.pdf': '%PDF', 'b.xml': SCORE, 'c.xml': SCORE };
    const archive = (...roots: readonly string[]): Uint8Array =>
      buildArchive({ 'META-INF/container.xml': containerXml(...roots), ...files });
    expect(taken(archive(rootFile('b.xml'), rootFile('c.xml')))).toBe('b.xml');
    expect(taken(archive(rootFile('a.pdf', 'application/pdf'), rootFile('c.xml')))).toBe('c.xml');
    expect(taken(archive(rootFile('c.xml', 'application/vnd.recordare.musicxml+xml')))).toBe('c.xml');
    expect(taken(archive(rootFile('a.pdf', 'application/pdf')))).toBe('archive-without-score');
  });

  it('is missing where the table of contents names a file that is not there: the problem names it', () => {
    const result = unpackScore(
      buildArchive({ 'META-INF/container.xml': containerXml(rootFile('b.xml')), 'a.xml': SCORE }),
    );
    expect(result).toMatchObject({ ok: false, problem: { code: 'archive-corrupt' } });
    expect(result.ok ? '' : problemMessage(result.problem)).toContain(
      'names b.xml, which is not in the archive',
    );
  });

  it('is the only score where an old archive has no table of contents', () => {
    expect(taken(buildArchive({ 'song.musicxml': SCORE, 'readme.txt': 'x' }))).toBe('song.musicxml');
    expect(taken(buildArchive({ 'a.xml': SCORE, 'b.xml': SCORE }))).toBe('archive-without-score');
  });

  it('comes out byte for byte, stored or deflated', () => {
    const content = encode(SCORE.repeat(1000));
    const result = unpackScore(buildArchive({ 'a.xml': content }));
    expect(result.ok && result.value.bytes).toEqual(content);
  });

  it('may not be there: the problem lists what is', () => {
    const result = unpackScore(buildArchive({ 'readme.txt': 'x', 'image.png': 'y' }));
    expect(result).toEqual({
      ok: false,
      problem: { code: 'archive-without-score', entries: ['readme.txt', 'image.png'] },
    });
    expect(taken(buildArchive({ 'META-INF/container.xml': containerXml(rootFile('lost.xml')) }))).toBe(
      'archive-corrupt',
    );
    expect(taken(buildArchive({}))).toBe('archive-without-score');
  });

  it('is only looked for among the names of the archive', () => {
    const evil = buildArchive({ 'META-INF/container.xml': containerXml(rootFile('../../etc/passwd')) });
    expect(taken(evil)).toBe('archive-corrupt');
  });
});

describe('an archive in the ZIP64 form', () => {
  const files = { 'META-INF/container.xml': containerXml(rootFile('b.xml')), 'b.xml': SCORE };

  it('is read as any other', () => {
    const result = unpackScore(asZip64(buildArchive(files)));
    expect(result.ok && new TextDecoder().decode(result.value.bytes)).toBe(SCORE);
    expect(result).toMatchObject({ value: { archivePath: 'b.xml' } });
  });

  it('is told how many files it has, not how many fit into a field', () => {
    const many = Object.fromEntries(Array.from({ length: 1_001 }, (_, i) => [`${i}.xml`, SCORE]));
    expect(unpackScore(asZip64(buildArchive(many)))).toMatchObject({
      problem: { code: 'limit-exceeded', what: 'archive-entries', found: 1_001 },
    });
  });

  it('is refused where its longer fields lead nowhere, whatever stands in them', () => {
    const whole = asZip64(buildArchive(files));
    fc.assert(
      fc.property(fc.nat(150), fc.nat(255), (back, byte) => {
        const broken = whole.slice();
        broken[broken.length - 1 - back] = byte;
        unpackScore(broken);
      }),
    );
    const lost = whole.slice();
    lost.fill(0xff, lost.length - 22 - 20 + 8, lost.length - 22 - 4);
    expect(taken(lost)).toBe('archive-corrupt');
  });
});

describe('an archive is refused', () => {
  const plain = buildArchive({ 'a.xml': SCORE.repeat(100) });

  it('when it is cut off or damaged', () => {
    expect(taken(plain.subarray(0, plain.length - 30))).toBe('archive-corrupt');
    expect(taken(plain.subarray(0, 4))).toBe('archive-corrupt');
    const damaged = plain.slice();
    damaged[40] = damaged[40]! ^ 0xff;
    expect(taken(damaged)).toBe('archive-corrupt');
    expect(taken(buildArchive({ 'META-INF/container.xml': '<container>' }))).toBe('archive-corrupt');
  });

  it('when it is encrypted or packed in another way', () => {
    expect(taken(patchDirectory(plain, 8, 1))).toBe('unsupported');
    expect(taken(patchDirectory(plain, 10, 12))).toBe('unsupported');
  });

  it('when it has too many entries', () => {
    const many = Object.fromEntries(Array.from({ length: 1001 }, (_, index) => [`${index}.txt`, '']));
    const result = unpackScore(buildArchive(many));
    expect(result).toEqual({
      ok: false,
      problem: { code: 'limit-exceeded', what: 'archive-entries', limit: 1000, found: 1001 },
    });
  });

  it('as soon as it is larger than it claims', () => {
    const lying = unpackScore(bombOf(20_000_000, 100), { ...ARCHIVE_LIMITS, ratio: 1e9 });
    expect(lying).toMatchObject({ ok: false, problem: { code: 'archive-corrupt' } });
  });

  it('as soon as it grows too much', () => {
    const result = unpackScore(bombOf(20_000_000));
    expect(result).toMatchObject({ ok: false, problem: { code: 'limit-exceeded', what: 'inflation-ratio' } });
    const capped = unpackScore(bombOf(20_000_000), {
      ...ARCHIVE_LIMITS,
      inflatedBytes: 5_000_000,
      ratio: 1e9,
    });
    expect(capped).toMatchObject({ ok: false, problem: { code: 'limit-exceeded', what: 'inflated-bytes' } });
    // It stops within one slice of the cap: it never holds the 20 MB.
    expect(!capped.ok && capped.problem.code === 'limit-exceeded' && capped.problem.found).toBeLessThan(
      10_000_000,
    );
  });

  it('or read, but never throws, whichever bytes are changed', () => {
    const archive = buildArchive({
      'META-INF/container.xml': containerXml(rootFile('a.xml')),
      'a.xml': SCORE.repeat(20),
    });
    const change = fc.tuple(fc.nat(archive.length - 1), fc.nat(255));
    fc.assert(
      fc.property(
        fc.array(change, { minLength: 1, maxLength: 4 }),
        fc.nat(archive.length),
        (changes, length) => {
          const mutated = archive.slice();
          for (const [at, value] of changes) mutated[at] = value;
          expect(() => unpackScore(mutated)).not.toThrow();
          expect(() => unpackScore(mutated.subarray(0, length))).not.toThrow();
        },
      ),
      { numRuns: cases(1000) },
    );
  });
});

it('other bytes are handed on as they are', () => {
  const bytes = encode(SCORE);
  expect(unpackScore(bytes)).toEqual({ ok: true, value: { bytes, archivePath: null } });
});
