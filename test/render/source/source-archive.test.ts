import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Zippable, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { type ArchiveEntry, listEntries, unpackEntry } from '../../../engine/score/file/unzip.ts';
import { repackScore } from '../../../render/source/repack.ts';
import {
  asZip64,
  buildArchive,
  containerXml,
  encode,
  rootFile,
} from '../../engine/score/file/archive-builder.ts';
import { buildHarp, note } from '../../engine/score/musicxml/musicxml-builder.ts';
import { annotateFile } from './annotate-file.ts';

const SCORE = buildHarp(note('C4', 4), note('C#4', 4));
const COMMENT = 'made for a test';
const NAMES = ['mimetype', 'META-INF/container.xml', 'score.xml', 'Thumbnails/a.png', 'a folder/empty.txt'];

const archiveOf = (score: string): Uint8Array => {
  const files: Zippable = {
    mimetype: [encode('application/vnd.recordare.musicxml'), { level: 0 }],
    'META-INF/container.xml': encode(containerXml(rootFile('score.xml'))),
    'score.xml': [encode(score), { mtime: '1999-12-31T10:00:00', comment: 'the score' }],
    'Thumbnails/a.png': new Uint8Array(5000).map((_, i) => (i * 7919) % 251),
    'a folder/empty.txt': new Uint8Array(),
  };
  const zip = zipSync(files);
  new DataView(zip.buffer, zip.byteOffset).setUint16(zip.length - 2, COMMENT.length, true);
  return new Uint8Array([...zip, ...encode(COMMENT)]);
};

/** The same archive, its score with the sizes behind the data, as programs write that do not know them before. */
const withSizesBehind = (archive: Uint8Array): Uint8Array => {
  const [entry, next] = ['score.xml', 'Thumbnails/a.png'].map((path) => entryOf(archive, path)) as [
    ArchiveEntry,
    ArchiveEntry,
  ];
  const descriptor = new Uint8Array(16);
  const behind = new DataView(descriptor.buffer);
  behind.setUint32(0, 0x08074b50, true);
  behind.setUint32(4, entry.crc32, true);
  behind.setUint32(8, entry.packedBytes, true);
  behind.setUint32(12, entry.inflatedBytes, true);
  const bytes = new Uint8Array([
    ...archive.subarray(0, next.headerOffset),
    ...descriptor,
    ...archive.subarray(next.headerOffset),
  ]);
  const view = new DataView(bytes.buffer);
  view.setUint16(entry.headerOffset + 6, 8, true);
  for (const field of [14, 18, 22]) view.setUint32(entry.headerOffset + field, 0, true);
  const end = bytes.length - 22 - COMMENT.length;
  view.setUint32(end + 16, view.getUint32(end + 16, true) + 16, true);
  let at = view.getUint32(end + 16, true);
  for (const path of NAMES) {
    if (path === 'score.xml') view.setUint16(at + 8, 8, true);
    if (view.getUint32(at + 42, true) >= next.headerOffset)
      view.setUint32(at + 42, view.getUint32(at + 42, true) + 16, true);
    at += 46 + view.getUint16(at + 28, true) + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
  }
  return bytes;
};

const entriesOf = (archive: Uint8Array): readonly ArchiveEntry[] => {
  const listed = listEntries(archive);
  if (!listed.ok) throw new Error(JSON.stringify(listed.problem));
  return listed.value;
};

const entryOf = (archive: Uint8Array, path: string): ArchiveEntry =>
  entriesOf(archive).find((entry) => entry.path === path)!;

/** A member as it stands in the archive: header, name and packed data. */
const rawMember = (archive: Uint8Array, path: string): Uint8Array => {
  const offsets = entriesOf(archive).map((entry) => entry.headerOffset);
  const { headerOffset } = entryOf(archive, path);
  const end = offsets.filter((offset) => offset > headerOffset).sort((a, b) => a - b)[0];
  const { packedBytes } = entryOf(archive, path);
  return archive.slice(headerOffset, end ?? headerOffset + 30 + path.length + packedBytes);
};

const textOf = (archive: Uint8Array, path: string): string => {
  const bytes = unpackEntry(archive, entryOf(archive, path));
  if (!bytes.ok) throw new Error(JSON.stringify(bytes.problem));
  return new TextDecoder().decode(bytes.value);
};

const repack = (archive: Uint8Array, score: string): Uint8Array => {
  const done = repackScore(archive, 'score.xml', encode(score));
  if (!done.ok) throw new Error(JSON.stringify(done.problem));
  return done.value;
};

/** What an ordinary unpacking program says of the archive; null where there is none. */
const testByPython = (archive: Uint8Array): string => {
  const folder = mkdtempSync(join(tmpdir(), 'tringle-'));
  try {
    writeFileSync(join(folder, 'a.zip'), archive);
    const program = `import zipfile; z = zipfile.ZipFile(${JSON.stringify(join(folder, 'a.zip'))}); print(z.testzip(), z.namelist(), z.comment.decode(), z.getinfo("score.xml").date_time[0])`;
    return execFileSync('python3', ['-c', program], { encoding: 'utf8' }).trim();
  } finally {
    rmSync(folder, { recursive: true });
  }
};

const hasPython = ((): boolean => {
  try {
    execFileSync('python3', ['--version'], { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  }
})();

describe.each([
  ['sizes before the data', archiveOf(SCORE)],
  ['sizes behind the data', withSizesBehind(archiveOf(SCORE))],
])('a compressed score with %s', (_, archive) => {
  it('comes back with the new score, and every other member as it was, byte for byte and in its place', () => {
    const longer = SCORE.replace(
      '</score-partwise>',
      `<!--${'x'.repeat(3000)}${Math.PI}--></score-partwise>`,
    );
    for (const score of [longer, '<a/>']) {
      const done = repack(archive, score);
      expect(textOf(done, 'score.xml')).toBe(score);
      expect(entriesOf(done).map((entry) => entry.path)).toEqual(NAMES);
      for (const path of NAMES.filter((name) => name !== 'score.xml')) {
        expect(rawMember(done, path)).toEqual(rawMember(archive, path));
      }
      const flags = new DataView(done.buffer).getUint16(entryOf(done, 'score.xml').headerOffset + 6, true);
      expect(flags & 8).toBe(0);
      expect(done.subarray(0, 4)).toEqual(archive.subarray(0, 4));
      expect(entryOf(done, 'mimetype')).toMatchObject({ headerOffset: 0, method: 0 });
    }
  });

  it.skipIf(!hasPython)('is in order for another program too (skipped where there is no Python)', () => {
    expect(testByPython(repack(archive, SCORE.repeat(2)))).toBe(
      `None ${JSON.stringify(NAMES).replaceAll('"', "'").replaceAll(',', ', ')} ${COMMENT} 1999`,
    );
  });

  it('is annotated in its archive, and annotated again gives the same bytes', () => {
    const once = annotateFile(archive, { others: 'keep' });
    const twice = annotateFile(once.ok ? once.value.bytes : archive, { others: 'keep' });
    expect(once.ok && once.value.kind).toBe('mxl');
    expect(once.ok && textOf(once.value.bytes, 'score.xml')).toMatch(/<words [^>]*>▸C♯<\/words>/);
    expect(twice).toMatchObject({ ok: true });
    expect(twice.ok && once.ok && Buffer.compare(twice.value.bytes, once.value.bytes)).toBe(0);
  });
});

describe('an archive that cannot be repacked', () => {
  it('is told so where it is in the ZIP64 form', () => {
    const archive = asZip64(buildArchive({ 'a.xml': '<score-partwise/>' }));
    expect(repackScore(archive, 'a.xml', encode('<score-partwise />'))).toMatchObject({
      ok: false,
      problem: { code: 'unsupported', feature: expect.stringContaining('ZIP64') },
    });
  });

  it('is refused where the score is not in it', () => {
    expect(repackScore(archiveOf(SCORE), 'other.xml', encode('<a/>'))).toMatchObject({
      ok: false,
      problem: { code: 'archive-without-score' },
    });
  });

  it('is refused where it is cut off or its directory points nowhere', () => {
    const archive = archiveOf(SCORE);
    expect(repackScore(archive.subarray(0, 700), 'score.xml', encode('<a/>')).ok).toBe(false);
    const astray = archive.slice();
    const end = astray.length - 22 - COMMENT.length;
    const view = new DataView(astray.buffer);
    let at = view.getUint32(end + 16, true);
    for (const path of NAMES) {
      if (path === 'score.xml') view.setUint32(at + 42, 3_000_000_000, true);
      at +=
        46 + view.getUint16(at + 28, true) + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
    }
    expect(repackScore(astray, 'score.xml', encode('<a/>'))).toMatchObject({
      problem: { code: 'archive-corrupt' },
    });
  });

  it('is not needed for a plain score', () => {
    const plain = encode(SCORE);
    expect(repackScore(plain, null, encode('<a/>'))).toEqual({ ok: true, value: encode('<a/>') });
  });
});
