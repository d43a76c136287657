import { deflateSync } from 'fflate';
import {
  crc32,
  fail,
  findEndRecord,
  isZip,
  isZip64,
  listEntries,
  ok,
  type Result,
} from '../../engine/index.ts';

/** Fields of a ZIP archive, by their offsets (APPNOTE 6.3.10, 4.3.7, 4.3.12 and 4.3.16). */
const LOCAL = {
  signature: 0x04034b50,
  flags: 6,
  crc: 14,
  packed: 18,
  size: 22,
  name: 26,
  extra: 28,
  length: 30,
};
const DIRECTORY = {
  flags: 8,
  crc: 16,
  packed: 20,
  size: 24,
  name: 28,
  extra: 30,
  comment: 32,
  offset: 42,
  length: 46,
};
const END = { offset: 16 };

const DEFLATED = 8;
/** Flag of an entry whose sizes follow its data. */
const SIZES_BEHIND = 1 << 3;

/**
 * Puts a score file back into its archive.
 *
 * All other members are copied as they are, compressed data included, in their order; the score keeps its name, date
 * and kind of compression. Bytes that are no archive are simply replaced.
 *
 * @param archive the bytes in which the score came
 * @param archivePath its path in there (`SourceText.archivePath`); null where it came plain
 * @returns the archive, or `archive-corrupt` or `archive-without-score`
 */
export const repackScore = (
  archive: Uint8Array,
  archivePath: string | null,
  score: Uint8Array,
): Result<Uint8Array> => {
  if (archivePath === null || !isZip(archive)) return ok(score);
  const listed = listEntries(archive);
  if (!listed.ok) return listed;
  const entries = listed.value;
  const target = entries.find((entry) => entry.path === archivePath);
  if (target === undefined)
    return fail({ code: 'archive-without-score', entries: entries.map((entry) => entry.path) });
  const end = findEndRecord(archive)!;
  if (isZip64(archive, end)) {
    return fail({
      code: 'unsupported',
      feature: 'Writing into an archive in the ZIP64 form',
      advice: 'Ask for the score unpacked (.musicxml), or pack it as ordinary ZIP.',
    });
  }
  const directory = viewOf(archive).getUint32(end + END.offset, true);
  const next = entries
    .map((entry) => entry.headerOffset)
    .filter((offset) => offset > target.headerOffset)
    .reduce((nearest, offset) => Math.min(nearest, offset), directory);
  if (!isLocalHeader(archive, target.headerOffset) || directory > end || next < target.headerOffset)
    return fail({ code: 'archive-corrupt', message: `“${archivePath}” is cut off` });
  const member = writeMember(archive, target.headerOffset, target.method, score);
  return ok(putMember(archive, member, { target: target.headerOffset, next, directory, end }));
};

/** Where parts of an archive begin: a member, what follows it, the directory and the end record. */
interface Offsets {
  readonly target: number;
  readonly next: number;
  readonly directory: number;
  readonly end: number;
}

const putMember = (
  archive: Uint8Array,
  member: Member,
  { directory, end, next, target }: Offsets,
): Uint8Array => {
  const grown = member.bytes.length - (next - target);
  return join([
    archive.subarray(0, target),
    member.bytes,
    archive.subarray(next, directory),
    writeDirectory(archive.slice(directory, end), { from: next, grown, target, member }),
    writeEnd(archive.slice(end), directory + grown),
  ]);
};

interface Member {
  readonly bytes: Uint8Array;
  readonly crc: number;
  readonly packed: number;
  readonly size: number;
}

const viewOf = (bytes: Uint8Array): DataView =>
  new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);

const isLocalHeader = (bytes: Uint8Array, at: number): boolean =>
  at + LOCAL.length <= bytes.length && viewOf(bytes).getUint32(at, true) === LOCAL.signature;

/** The local header with the new sizes, and the packed score. */
const writeMember = (archive: Uint8Array, at: number, method: number, score: Uint8Array): Member => {
  const old = viewOf(archive);
  const length = LOCAL.length + old.getUint16(at + LOCAL.name, true) + old.getUint16(at + LOCAL.extra, true);
  const header = archive.slice(at, at + length);
  const data = method === DEFLATED ? deflateSync(score, { level: 9 }) : score;
  const member = { crc: crc32(score), packed: data.length, size: score.length };
  writeSizes(viewOf(header), 0, LOCAL, member);
  return { bytes: join([header, data]), ...member };
};

/** Sizes stand in the header itself, whatever the archive had. */
const writeSizes = (
  view: DataView,
  at: number,
  fields: { readonly flags: number; readonly crc: number; readonly packed: number; readonly size: number },
  { crc, packed, size }: Omit<Member, 'bytes'>,
): void => {
  view.setUint16(at + fields.flags, view.getUint16(at + fields.flags, true) & ~SIZES_BEHIND, true);
  view.setUint32(at + fields.crc, crc, true);
  view.setUint32(at + fields.packed, packed, true);
  view.setUint32(at + fields.size, size, true);
};

/** What changes in the directory: the score's sizes, and the places of all that stands behind it. */
interface Shift {
  readonly from: number;
  readonly grown: number;
  readonly target: number;
  readonly member: Member;
}

const writeDirectory = (directory: Uint8Array, { from, grown, target, member }: Shift): Uint8Array => {
  const view = viewOf(directory);
  let at = 0;
  while (at + DIRECTORY.length <= directory.length) {
    const offset = view.getUint32(at + DIRECTORY.offset, true);
    if (offset === target) writeSizes(view, at, DIRECTORY, member);
    if (offset >= from) view.setUint32(at + DIRECTORY.offset, offset + grown, true);
    at +=
      DIRECTORY.length +
      view.getUint16(at + DIRECTORY.name, true) +
      view.getUint16(at + DIRECTORY.extra, true) +
      view.getUint16(at + DIRECTORY.comment, true);
  }
  return directory;
};

const writeEnd = (end: Uint8Array, directory: number): Uint8Array => {
  viewOf(end).setUint32(END.offset, directory, true);
  return end;
};

const join = (pieces: readonly Uint8Array[]): Uint8Array => {
  const whole = new Uint8Array(pieces.reduce((length, piece) => length + piece.length, 0));
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
};
