import { Inflate } from 'fflate';
import { fail, ok, type Problem, type Result } from '../../problem.ts';

/** Limits of an archive, all checked while it is unpacked. */
export interface ArchiveLimits {
  readonly entries: number;
  readonly inflatedBytes: number;
  /** Times the packed size; counted only past `RATIO_FREE_BYTES`, since short text of one kind packs very well. */
  readonly ratio: number;
}

export const ARCHIVE_LIMITS: ArchiveLimits = { entries: 1000, inflatedBytes: 100_000_000, ratio: 200 };

const RATIO_FREE_BYTES = 1_000_000;

/** One file of an archive as its directory lists it. */
export interface ArchiveEntry {
  /** Only a name: no file is ever opened by it. */
  readonly path: string;
  readonly encrypted: boolean;
  readonly method: number;
  readonly crc32: number;
  readonly packedBytes: number;
  readonly inflatedBytes: number;
  readonly headerOffset: number;
}

/** Whether bytes begin like a ZIP archive. */
export const isZip = (bytes: Uint8Array): boolean =>
  bytes[0] === 0x50 &&
  bytes[1] === 0x4b &&
  ((bytes[2] === 3 && bytes[3] === 4) || (bytes[2] === 5 && bytes[3] === 6));

const corrupt = (message: string): { readonly ok: false; readonly problem: Problem } =>
  fail({ code: 'archive-corrupt', message });

/** Little-endian fields (ZIP APPNOTE, 4.3 and 4.4; offsets from memory, checked against archives by others); reading past the end gives NaN, which fails every check. */
const u16 = (bytes: Uint8Array, at: number): number =>
  at + 2 <= bytes.length ? bytes[at]! + bytes[at + 1]! * 0x100 : Number.NaN;

const u32 = (bytes: Uint8Array, at: number): number => u16(bytes, at) + u16(bytes, at + 2) * 0x1_0000;

/** Exact up to 2^53, far above any size that is accepted. */
const u64 = (bytes: Uint8Array, at: number): number => u32(bytes, at) + u32(bytes, at + 4) * 0x1_0000_0000;

const END_OF_DIRECTORY = 0x06054b50;
const END_LENGTH = 22;
const LONGEST_COMMENT = 0xffff;
const DIRECTORY_ENTRY = 0x02014b50;
const DIRECTORY_ENTRY_LENGTH = 46;
const LOCAL_HEADER = 0x04034b50;
const LOCAL_HEADER_LENGTH = 30;

/** Where the record that ends the archive stands, or null. */
export const findEndRecord = (bytes: Uint8Array): number | null => {
  const lowest = Math.max(0, bytes.length - END_LENGTH - LONGEST_COMMENT);
  for (let at = bytes.length - END_LENGTH; at >= lowest; at -= 1) {
    if (u32(bytes, at) === END_OF_DIRECTORY) return at;
  }
  return null;
};

/** Where the directory begins and how many entries it has. */
interface Directory {
  readonly count: number;
  readonly start: number;
}

/** What stands in a field whose number is too large for it, and is told by a ZIP64 record (APPNOTE, 4.4.1.4). */
const ELSEWHERE_16 = 0xffff;
const ELSEWHERE_32 = 0xffffffff;

const END_64 = 0x06064b50;
const LOCATOR_64 = 0x07064b50;
const LOCATOR_64_LENGTH = 20;

/** Whether an archive is in the ZIP64 form: a locator stands before the record that ends it. */
export const isZip64 = (bytes: Uint8Array, end: number): boolean =>
  end >= LOCATOR_64_LENGTH && u32(bytes, end - LOCATOR_64_LENGTH) === LOCATOR_64;

/** Reads the record at the end; of an archive in ZIP64 form the longer record before it (APPNOTE, 4.3.14 and 4.3.15). */
const readEnd = (bytes: Uint8Array, end: number): Directory | null => {
  const count = u16(bytes, end + 10);
  const start = u32(bytes, end + 16);
  if (count !== ELSEWHERE_16 && start !== ELSEWHERE_32) return { count, start };
  // So many entries may be there in truth.
  if (!isZip64(bytes, end)) return { count, start };
  const record = u64(bytes, end - LOCATOR_64_LENGTH + 8);
  return u32(bytes, record) === END_64
    ? { count: u64(bytes, record + 32), start: u64(bytes, record + 48) }
    : null;
};

/**
 * Reads the directory of a ZIP archive; nothing is unpacked.
 *
 * @returns `archive-corrupt` where the directory is cut off or broken, `limit-exceeded` for too many entries
 */
export const listEntries = (
  bytes: Uint8Array,
  limits: ArchiveLimits = ARCHIVE_LIMITS,
): Result<readonly ArchiveEntry[]> => {
  const end = findEndRecord(bytes);
  if (end === null) return corrupt('its table of contents is missing; the file may be incomplete');
  const directory = readEnd(bytes, end);
  if (directory === null) return corrupt('its directory is broken');
  const { count } = directory;
  if (count > limits.entries) {
    return fail({ code: 'limit-exceeded', what: 'archive-entries', limit: limits.entries, found: count });
  }
  const entries: ArchiveEntry[] = [];
  let at = directory.start;
  for (let index = 0; index < count; index += 1) {
    const nameLength = u16(bytes, at + 28);
    const next = at + DIRECTORY_ENTRY_LENGTH + nameLength + u16(bytes, at + 30) + u16(bytes, at + 32);
    if (u32(bytes, at) !== DIRECTORY_ENTRY || !(next <= end)) return corrupt('its directory is broken');
    entries.push(readEntry(bytes, at, nameLength));
    at = next;
  }
  return ok(entries);
};

const readEntry = (bytes: Uint8Array, at: number, nameLength: number): ArchiveEntry => {
  const name = bytes.subarray(at + DIRECTORY_ENTRY_LENGTH, at + DIRECTORY_ENTRY_LENGTH + nameLength);
  const sizes = readSizes(bytes, at, at + DIRECTORY_ENTRY_LENGTH + nameLength);
  return {
    path: new TextDecoder('utf-8').decode(name),
    encrypted: (u16(bytes, at + 8) & 1) === 1,
    method: u16(bytes, at + 10),
    crc32: u32(bytes, at + 16),
    ...sizes,
  };
};

const EXTRA_64 = 0x0001;

/** Sizes and place of an entry; those that are too large for their fields stand one after the other in an extra field (APPNOTE, 4.5.3). */
const readSizes = (
  bytes: Uint8Array,
  at: number,
  extraStart: number,
): Pick<ArchiveEntry, 'packedBytes' | 'inflatedBytes' | 'headerOffset'> => {
  let next = findExtra(bytes, extraStart, extraStart + u16(bytes, at + 30));
  const read = (field: number): number => {
    const short = u32(bytes, at + field);
    if (short !== ELSEWHERE_32 || next === null) return short;
    next += 8;
    return u64(bytes, next - 8);
  };
  const inflatedBytes = read(24);
  const packedBytes = read(20);
  return { inflatedBytes, packedBytes, headerOffset: read(42) };
};

/** Where the numbers of the ZIP64 field among extra fields begin; null where there is none. */
const findExtra = (bytes: Uint8Array, start: number, end: number): number | null => {
  for (let at = start; at + 4 <= end; at += 4 + u16(bytes, at + 2)) {
    if (u16(bytes, at) === EXTRA_64) return at + 4;
  }
  return null;
};

const STORED = 0;
const DEFLATED = 8;

/**
 * Unpacks one entry, stopping as soon as a limit is passed, whatever size the directory claims.
 *
 * @returns `archive-corrupt`, `limit-exceeded`, or `unsupported` for encryption and for other methods than deflate
 */
export const unpackEntry = (
  bytes: Uint8Array,
  entry: ArchiveEntry,
  limits: ArchiveLimits = ARCHIVE_LIMITS,
): Result<Uint8Array> => {
  if (entry.encrypted) {
    return fail({
      code: 'unsupported',
      feature: 'An encrypted archive',
      advice: 'Save the score without a password.',
    });
  }
  const packed = packedBytesOf(bytes, entry);
  if (packed === null) return corrupt(`“${entry.path}” is incomplete`);
  if (entry.method !== STORED && entry.method !== DEFLATED) {
    return fail({
      code: 'unsupported',
      feature: `Compression method ${entry.method} in an archive`,
      advice: 'Use ordinary ZIP compression (deflate).',
    });
  }
  const inflated = entry.method === STORED ? ok(packed) : inflate(packed, entry, limits);
  if (!inflated.ok) return inflated;
  if (inflated.value.length > limits.inflatedBytes) return tooLarge(limits, inflated.value.length);
  if (inflated.value.length !== entry.inflatedBytes || crc32(inflated.value) !== entry.crc32) {
    return corrupt(`“${entry.path}” does not match its checksum`);
  }
  return inflated;
};

const tooLarge = (limits: ArchiveLimits, found: number): { readonly ok: false; readonly problem: Problem } =>
  fail({ code: 'limit-exceeded', what: 'inflated-bytes', limit: limits.inflatedBytes, found });

const packedBytesOf = (bytes: Uint8Array, entry: ArchiveEntry): Uint8Array | null => {
  const header = entry.headerOffset;
  if (u32(bytes, header) !== LOCAL_HEADER) return null;
  const start = header + LOCAL_HEADER_LENGTH + u16(bytes, header + 26) + u16(bytes, header + 28);
  const end = start + entry.packedBytes;
  return end <= bytes.length ? bytes.subarray(start, end) : null;
};

/** Packed bytes fed at a time. Deflate yields at most 1032 times as much (from memory), so a limit is overrun by 4 MB at most. */
const SLICE_BYTES = 4096;

const inflate = (
  packed: Uint8Array,
  { path, inflatedBytes }: ArchiveEntry,
  limits: ArchiveLimits,
): Result<Uint8Array> => {
  const chunks: Uint8Array[] = [];
  let total = 0;
  const inflater = new Inflate((chunk) => {
    chunks.push(chunk);
    total += chunk.length;
  });
  try {
    for (let at = 0; at < packed.length; at += SLICE_BYTES) {
      const end = Math.min(at + SLICE_BYTES, packed.length);
      inflater.push(packed.subarray(at, end), end === packed.length);
      if (total > limits.inflatedBytes) return tooLarge(limits, total);
      if (total > RATIO_FREE_BYTES && total > packed.length * limits.ratio) {
        const found = Math.ceil(total / packed.length);
        return fail({ code: 'limit-exceeded', what: 'inflation-ratio', limit: limits.ratio, found });
      }
      if (total > inflatedBytes) return corrupt(`“${path}” is larger than the archive says`);
    }
  } catch (thrown) {
    return corrupt(
      `“${path}” cannot be unpacked (${thrown instanceof Error ? thrown.message : 'broken data'})`,
    );
  }
  return ok(join(chunks, total));
};

const join = (chunks: readonly Uint8Array[], total: number): Uint8Array => {
  const whole = new Uint8Array(total);
  let at = 0;
  for (const chunk of chunks) {
    whole.set(chunk, at);
    at += chunk.length;
  }
  return whole;
};

/** CRC-32 as ZIP uses it (APPNOTE 4.4.7): reflected polynomial EDB88320 (from memory, checked against archives by others). */
const CRC_TABLE: Uint32Array = Uint32Array.from({ length: 256 }, (_, byte) => {
  let value = byte;
  for (let bit = 0; bit < 8; bit += 1) value = value & 1 ? (value >>> 1) ^ 0xedb88320 : value >>> 1;
  return value;
});

/** The same a byte later, two and three bytes later: four bytes are taken at a time. */
const CRC_TABLES: readonly [Uint32Array, Uint32Array, Uint32Array] = (() => {
  const next = (table: Uint32Array): Uint32Array =>
    table.map((value) => (value >>> 8) ^ CRC_TABLE[value & 0xff]!);
  const second = next(CRC_TABLE);
  const third = next(second);
  return [second, third, next(third)];
})();

/** The check sum of a ZIP archive’s entry (CRC-32, ISO 3309). */
export const crc32 = (bytes: Uint8Array): number => {
  const [second, third, fourth] = CRC_TABLES;
  let value = 0xffffffff;
  let at = 0;
  for (; at + 4 <= bytes.length; at += 4) {
    value ^= bytes[at]! | (bytes[at + 1]! << 8) | (bytes[at + 2]! << 16) | (bytes[at + 3]! << 24);
    value =
      fourth[value & 0xff]! ^
      third[(value >>> 8) & 0xff]! ^
      second[(value >>> 16) & 0xff]! ^
      CRC_TABLE[value >>> 24]!;
  }
  for (; at < bytes.length; at += 1) value = (value >>> 8) ^ CRC_TABLE[(value ^ bytes[at]!) & 0xff]!;
  return (value ^ 0xffffffff) >>> 0;
};
