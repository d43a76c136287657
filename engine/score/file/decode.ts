import { fail, ok, type Result } from '../../problem.ts';
import type { TextEncoding } from '../model/source.ts';

export interface DecodedText {
  /** A byte order mark stays as the first character, so that nothing of the file is lost. */
  readonly text: string;
  readonly encoding: TextEncoding;
}

/**
 * Turns the bytes of an XML file into text so that `encodeText` gives the same bytes again.
 *
 * A byte order mark decides, then the pattern of zero bytes, then the declared encoding, else UTF-8 (XML 1.0,
 * appendix F).
 *
 * @returns `empty-input`, `unknown-encoding` or `bad-characters` with the offset of the first byte that is wrong
 */
export const decodeText = (bytes: Uint8Array): Result<DecodedText> => {
  if (bytes.length === 0) return fail({ code: 'empty-input' });
  const found = detectEncoding(bytes);
  if (!found.ok) return found;
  const encoding = found.value;
  const text = DECODERS[encoding](bytes);
  if (typeof text === 'number')
    return fail({ code: 'bad-characters', encoding: encoding.toUpperCase(), offset: text });
  if (/^\uFEFF?[\s\0]*$/u.test(text)) return fail({ code: 'empty-input' });
  return ok({ text, encoding });
};

/**
 * Writes text in the encoding of its file. What ISO-8859-1 cannot hold becomes a numeric character reference, which
 * XML reads as the character in text and in attribute values.
 */
export const encodeText = (text: string, encoding: TextEncoding): Uint8Array => {
  switch (encoding) {
    case 'utf-8':
      return new TextEncoder().encode(text);
    case 'utf-16le':
      return encodeUtf16(text, 0);
    case 'utf-16be':
      return encodeUtf16(text, 1);
    case 'iso-8859-1':
      return Uint8Array.from(
        text.replace(/[^\0-\u00FF]/gu, (char) => `&#x${char.codePointAt(0)!.toString(16).toUpperCase()};`),
        (char) => char.charCodeAt(0),
      );
  }
};

const startsWith = (bytes: Uint8Array, ...start: readonly number[]): boolean =>
  start.every((byte, index) => bytes[index] === byte);

const detectEncoding = (bytes: Uint8Array): Result<TextEncoding> => {
  if (startsWith(bytes, 0xff, 0xfe, 0, 0) || startsWith(bytes, 0, 0, 0xfe, 0xff)) return unknown('UTF-32');
  if (startsWith(bytes, 0x4c, 0x6f, 0xa7, 0x94)) return unknown('EBCDIC');
  if (startsWith(bytes, 0xef, 0xbb, 0xbf)) return ok('utf-8');
  if (startsWith(bytes, 0xff, 0xfe)) return ok('utf-16le');
  if (startsWith(bytes, 0xfe, 0xff)) return ok('utf-16be');
  const [first, second, third, fourth] = bytes;
  if (first !== 0 && second === 0 && third !== 0 && fourth === 0) return ok('utf-16le');
  if (first === 0 && second !== 0 && third === 0 && fourth !== 0) return ok('utf-16be');
  return encodingOfName(declaredEncoding(bytes), bytes);
};

const unknown = (encoding: string): Result<never> => fail({ code: 'unknown-encoding', encoding });

/** Bytes of an XML declaration that are looked through for the encoding. */
const DECLARATION_LENGTH = 400;

const declaredEncoding = (bytes: Uint8Array): string | null => {
  const start = String.fromCharCode(...bytes.subarray(0, DECLARATION_LENGTH));
  const declaration = /^\s*<\?xml\s[^>]*?encoding\s*=\s*["']([A-Za-z0-9._:-]+)["']/u.exec(start);
  return declaration?.[1] ?? null;
};

const encodingOfName = (name: string | null, bytes: Uint8Array): Result<TextEncoding> => {
  switch (name?.toLowerCase()) {
    case undefined:
    case 'utf-8':
    case 'utf8':
    // The bytes are not UTF-16, since the declaration could be read: a string saved as UTF-8 with its old declaration.
    case 'utf-16':
    case 'utf16':
    case 'unicode':
      return ok('utf-8');
    case 'iso-8859-1':
    case 'iso8859-1':
    case 'iso_8859-1':
    case 'latin1':
    case 'latin-1':
      return ok('iso-8859-1');
    case 'us-ascii':
    case 'ascii':
      return bytes.some((byte) => byte > 0x7f) ? unknown(`${name} with bytes above 127`) : ok('iso-8859-1');
    // The two differ in these 32 places only.
    case 'windows-1252':
    case 'cp1252':
      return bytes.some((byte) => byte >= 0x80 && byte <= 0x9f) ? unknown(name!) : ok('iso-8859-1');
    default:
      return unknown(name!);
  }
};

const encodeUtf16 = (text: string, highByte: 0 | 1): Uint8Array => {
  const bytes = new Uint8Array(text.length * 2);
  for (let index = 0; index < text.length; index += 1) {
    const unit = text.charCodeAt(index);
    bytes[2 * index + (1 - highByte)] = unit >> 8;
    bytes[2 * index + highByte] = unit & 0xff;
  }
  return bytes;
};

/** `unitAt` reads the two bytes at an even offset. */
type UnitAt = (bytes: Uint8Array, offset: number) => number;

const unitLittleEndian: UnitAt = (bytes, offset) => bytes[offset]! | (bytes[offset + 1]! << 8);

const unitBigEndian: UnitAt = (bytes, offset) => (bytes[offset]! << 8) | bytes[offset + 1]!;

/** Units turned into text at a time: few enough to be arguments of one call. */
const CHUNK_UNITS = 8192;

const decodeUnits = (count: number, unit: (index: number) => number): string => {
  const parts: string[] = [];
  for (let start = 0; start < count; start += CHUNK_UNITS) {
    const length = Math.min(CHUNK_UNITS, count - start);
    parts.push(String.fromCharCode(...Array.from({ length }, (_, index) => unit(start + index))));
  }
  return parts.join('');
};

const decodeUtf16 =
  (unitAt: UnitAt): Decoder =>
  (bytes) =>
    findUtf16Fault(bytes, unitAt) ?? decodeUnits(bytes.length / 2, (index) => unitAt(bytes, 2 * index));

const findUtf16Fault = (bytes: Uint8Array, unitAt: UnitAt): number | null => {
  if (bytes.length % 2 === 1) return bytes.length - 1;
  for (let offset = 0; offset < bytes.length; offset += 2) {
    const kind = unitAt(bytes, offset) & 0xfc00;
    if (kind === 0xdc00) return offset;
    if (kind !== 0xd800) continue;
    if (offset + 2 >= bytes.length || (unitAt(bytes, offset + 2) & 0xfc00) !== 0xdc00) return offset;
    offset += 2;
  }
  return null;
};

/** The text, or the offset of the first byte that is no text in this encoding. */
type Decoder = (bytes: Uint8Array) => string | number;

/** The platform decodes quickly, but does not say where it met a fault: only then is it looked for. */
const decodeUtf8: Decoder = (bytes) => {
  try {
    return decodeInPieces(bytes);
  } catch (thrown) {
    const offset = findUtf8Fault(bytes);
    if (offset === null) throw thrown;
    return offset;
  }
};

/** Bytes decoded at a time: a piece of ASCII alone takes a fifth of the time of others, and most pieces are. */
const PIECE_BYTES = 8192;

/** A piece ends before an ASCII character, never within one of several bytes. @throws TypeError for malformed UTF-8 */
const decodeInPieces = (bytes: Uint8Array): string => {
  const decoder = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });
  const pieces: string[] = [];
  for (let start = 0; start < bytes.length; ) {
    let end = Math.min(start + PIECE_BYTES, bytes.length);
    while (end < bytes.length && bytes[end]! > 0x7f) end += 1;
    pieces.push(decoder.decode(bytes.subarray(start, end)));
    start = end;
  }
  return pieces.join('');
};

/**
 * Offset of the first sequence that is not well-formed UTF-8 (Unicode, table 3-7; ranges from memory, checked against the platform's decoder), or null.
 */
const findUtf8Fault = (bytes: Uint8Array): number | null => {
  let offset = 0;
  while (offset < bytes.length) {
    const lead = bytes[offset]!;
    if (lead < 0x80) {
      offset += 1;
      continue;
    }
    const length = lead >= 0xc2 && lead <= 0xdf ? 2 : lead >= 0xe0 && lead <= 0xef ? 3 : 4;
    if (lead < 0xc2 || lead > 0xf4 || !isUtf8Tail(bytes, offset, length)) return offset;
    offset += length;
  }
  return null;
};

/** The second byte's range depends on the lead: no overlong forms, surrogates or values past U+10FFFF. */
const isUtf8Tail = (bytes: Uint8Array, offset: number, length: number): boolean => {
  const lead = bytes[offset]!;
  const lowest = lead === 0xe0 ? 0xa0 : lead === 0xf0 ? 0x90 : 0x80;
  const highest = lead === 0xed ? 0x9f : lead === 0xf4 ? 0x8f : 0xbf;
  for (let index = 1; index < length; index += 1) {
    const byte = bytes[offset + index] ?? 0;
    if (byte < (index === 1 ? lowest : 0x80) || byte > (index === 1 ? highest : 0xbf)) return false;
  }
  return true;
};

const DECODERS: Readonly<Record<TextEncoding, Decoder>> = {
  'utf-8': decodeUtf8,
  'utf-16le': decodeUtf16(unitLittleEndian),
  'utf-16be': decodeUtf16(unitBigEndian),
  'iso-8859-1': (bytes) => decodeUnits(bytes.length, (index) => bytes[index]!),
};
