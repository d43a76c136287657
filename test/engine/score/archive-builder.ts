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

/** Deflated zeros: about a thousandth of their size. */
export const bombOf = (bytes: number): Uint8Array => {
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
  entry.setUint32(24, 100, true);
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
