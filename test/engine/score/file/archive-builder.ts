import { deflateRawSync } from 'node:zlib';
import { zipSync } from 'fflate';

export const encode = (text: string): Uint8Array => new TextEncoder().encode(text);

export const containerXml = (...rootFiles: readonly string[]): string =>
  `<?xml version="1.0"?><container><rootfiles>${rootFiles.join('')}</rootfiles></container>`;

export const rootFile = (path: string, mediaType?: string): string =>
  `<rootfile full-path="${path}"${mediaType === undefined ? '' : ` media-type="${mediaType}"`}/>`;

/** A ZIP archive of texts or bytes by path. */
export const buildArchive = (files: Readonly<Record<string, string | Uint8Array>>): Uint8Array =>
  zipSync(
    Object.fromEntries(
      Object.entries(files).map(([path, content]) => [
        path,
        typeof content === 'string' ? encode(content) : content,
      ]),
    ),
  );

/** The same bytes with `value` (16 bit) at `offset` from the archive's only directory entry. */
export const patchDirectory = (archive: Uint8Array, offset: number, value: number): Uint8Array => {
  const patched = archive.slice();
  const at = patched.findLastIndex(
    (byte, index) =>
      byte === 0x50 && patched[index + 1] === 0x4b && patched[index + 2] === 1 && patched[index + 3] === 2,
  );
  patched[at + offset] = value & 0xff;
  patched[at + offset + 1] = value >> 8;
  return patched;
};

/** Deflated zeros: about a thousandth of their size. @param claimed the size that the directory tells */
export const bombOf = (bytes: number, claimed = bytes): Uint8Array => {
  const packed = deflateRawSync(new Uint8Array(bytes));
  const name = encode('score.xml');
  const header = (signature: number, length: number): DataView => {
    const view = new DataView(new ArrayBuffer(length));
    view.setUint32(0, signature, true);
    return view;
  };
  const local = header(0x04034b50, 30);
  local.setUint16(8, 8, true);
  local.setUint16(26, name.length, true);
  const entry = header(0x02014b50, 46);
  entry.setUint16(10, 8, true);
  entry.setUint32(20, packed.length, true);
  entry.setUint32(24, claimed, true);
  entry.setUint16(28, name.length, true);
  const end = header(0x06054b50, 22);
  end.setUint16(10, 1, true);
  end.setUint32(12, 46 + name.length, true);
  end.setUint32(16, 30 + name.length + packed.length, true);
  const parts = [local, name, packed, entry, name, end].map((part) =>
    part instanceof DataView ? new Uint8Array(part.buffer) : part,
  );
  return Uint8Array.from(parts.flatMap((part) => [...part]));
};

/**
 * An archive in the ZIP64 form, as writers make it that do not know its size beforehand: all sizes and places stand in
 * the longer fields.
 *
 * @param archive without ZIP64 fields, extra fields and comments
 */
export const asZip64 = (archive: Uint8Array): Uint8Array => {
  const from = new DataView(archive.buffer, archive.byteOffset, archive.byteLength);
  const end = archive.length - 22;
  const count = from.getUint16(end + 10, true);
  const start = from.getUint32(end + 16, true);
  const entries: Uint8Array[] = [];
  let at = start;
  for (let index = 0; index < count; index += 1) {
    const length = 46 + from.getUint16(at + 28, true);
    const entry = new Uint8Array(length + 28);
    entry.set(archive.subarray(at, at + length));
    const view = new DataView(entry.buffer);
    view.setUint16(30, 28, true);
    view.setUint16(length, 1, true);
    view.setUint16(length + 2, 24, true);
    for (const [place, field] of [24, 20, 42].entries()) {
      view.setBigUint64(length + 4 + 8 * place, BigInt(view.getUint32(field, true)), true);
      view.setUint32(field, 0xffffffff, true);
    }
    entries.push(entry);
    at += length;
  }
  const size = entries.reduce((sum, entry) => sum + entry.length, 0);
  const record = new DataView(new ArrayBuffer(56 + 20));
  record.setUint32(0, 0x06064b50, true);
  record.setBigUint64(4, 44n, true);
  record.setUint16(12, 45, true);
  record.setUint16(14, 45, true);
  record.setBigUint64(24, BigInt(count), true);
  record.setBigUint64(32, BigInt(count), true);
  record.setBigUint64(40, BigInt(size), true);
  record.setBigUint64(48, BigInt(start), true);
  record.setUint32(56, 0x07064b50, true);
  record.setBigUint64(64, BigInt(start + size), true);
  record.setUint32(72, 1, true);
  const last = archive.slice(end);
  last.fill(0xff, 8, 20);
  return new Uint8Array(
    Buffer.concat([archive.subarray(0, start), ...entries, new Uint8Array(record.buffer), last]),
  );
};
