import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decodeText, encodeText } from '../../../../engine/score/file/decode.ts';
import type { TextEncoding } from '../../../../engine/score/model/source.ts';
import { cases } from '../../../thorough.ts';

const bytes = (...values: readonly number[]): Uint8Array => Uint8Array.from(values);

/** Each character as one byte. */
const latin = (text: string): Uint8Array => Uint8Array.from(text, (char) => char.charCodeAt(0));

const decode = (input: Uint8Array): string => {
  const result = decodeText(input);
  return result.ok ? `${result.value.encoding}: ${result.value.text}` : JSON.stringify(result.problem);
};

describe('the encoding', () => {
  it('is UTF-8 where nothing else is said', () => {
    expect(decode(new TextEncoder().encode('<a>é♭𝄪</a>'))).toBe('utf-8: <a>é♭𝄪</a>');
  });

  it('is told by a byte order mark, which stays in the text', () => {
    expect(decode(bytes(0xef, 0xbb, 0xbf, 0x3c))).toBe('utf-8: \uFEFF<');
    expect(decode(bytes(0xff, 0xfe, 0x3c, 0x00, 0x6d, 0x26))).toBe('utf-16le: \uFEFF<♭');
    expect(decode(bytes(0xfe, 0xff, 0x00, 0x3c, 0x26, 0x6d))).toBe('utf-16be: \uFEFF<♭');
  });

  it('is UTF-16 by the pattern of its zero bytes', () => {
    expect(decode(bytes(0x3c, 0, 0x61, 0, 0x2f, 0, 0x3e, 0))).toBe('utf-16le: <a/>');
    expect(decode(bytes(0, 0x3c, 0, 0x61, 0, 0x2f, 0, 0x3e))).toBe('utf-16be: <a/>');
  });

  it('is what the declaration says', () => {
    const text = '<?xml version="1.0" encoding="ISO-8859-1"?><a>Préparez</a>';
    expect(decode(latin(text))).toBe(`iso-8859-1: ${text}`);
  });

  it('may be declared as one that differs only where the file has no characters', () => {
    const declared = (name: string, content: string): string =>
      `<?xml version='1.0' encoding='${name}'?><a>${content}</a>`;
    expect(decode(latin(declared('windows-1252', 'é')))).toMatch(/^iso-8859-1/u);
    expect(decode(latin(declared('windows-1252', '\x93')))).toContain('unknown-encoding');
    expect(decode(latin(declared('US-ASCII', 'e')))).toMatch(/^iso-8859-1/u);
    expect(decode(latin(declared('US-ASCII', 'é')))).toContain('unknown-encoding');
  });

  it('is refused by name where it is not supported', () => {
    expect(decode(latin('<?xml version="1.0" encoding="Shift_JIS"?><a/>'))).toBe(
      '{"code":"unknown-encoding","encoding":"Shift_JIS"}',
    );
    expect(decode(bytes(0xff, 0xfe, 0, 0, 0x3c, 0, 0, 0))).toContain('UTF-32');
  });
});

describe('broken text', () => {
  it('is refused at the first byte that is wrong', () => {
    expect(decode(bytes(0x3c, 0x61, 0xc3, 0x28))).toBe(
      '{"code":"bad-characters","encoding":"UTF-8","offset":2}',
    );
    expect(decode(bytes(0x3c, 0xe2, 0x99))).toContain('"offset":1');
    expect(decode(bytes(0x3c, 0xed, 0xa0, 0x80))).toContain('"offset":1');
    expect(decode(bytes(0x3c, 0xc0, 0x80))).toContain('"offset":1');
    expect(decode(bytes(0xff, 0xfe, 0x3c, 0x00, 0x3c))).toBe(
      '{"code":"bad-characters","encoding":"UTF-16LE","offset":4}',
    );
    expect(decode(bytes(0xfe, 0xff, 0xd8, 0x00, 0x00, 0x3c))).toContain('"offset":2');
  });

  it('that is no text at all is empty', () => {
    expect(decode(bytes())).toContain('empty-input');
    expect(decode(bytes(0xef, 0xbb, 0xbf, 0x20, 0x0a))).toContain('empty-input');
  });

  it('is what the platform says it is', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 12 }), (tail) => {
        const input = Uint8Array.from([0x3c, 0x61, 0x3e, 0x3c, ...tail]);
        const result = decodeText(input);
        let expected: string | null = null;
        try {
          expected = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(input);
        } catch {
          expected = null;
        }
        expect(result.ok ? result.value.text : null).toBe(expected);
      }),
      { numRuns: cases(2000) },
    );
  });
});

describe('writing', () => {
  const text = fc.string({ unit: 'binary', maxLength: 40 }).filter((each) => !/\p{Surrogate}/u.test(each));

  it.each<TextEncoding>(['utf-8', 'utf-16le', 'utf-16be'])('gives the same bytes again: %s', (encoding) => {
    fc.assert(
      fc.property(text, (tail) => {
        const written = encodeText(`\uFEFF<a>${tail}`, encoding);
        const read = decodeText(written);
        expect(read).toEqual({ ok: true, value: { text: `\uFEFF<a>${tail}`, encoding } });
        expect(read.ok && encodeText(read.value.text, encoding)).toEqual(written);
      }),
    );
  });

  it('gives the same bytes again: ISO-8859-1, every byte', () => {
    const all = latin(
      `<?xml version="1.0" encoding="iso-8859-1"?>${String.fromCharCode(...Array.from({ length: 256 }, (_, byte) => byte))}`,
    );
    const read = decodeText(all);
    expect(read.ok && encodeText(read.value.text, read.value.encoding)).toEqual(all);
  });

  it('puts what ISO-8859-1 cannot hold as a character reference', () => {
    expect(encodeText('<a>é♭𝄪</a>', 'iso-8859-1')).toEqual(latin('<a>é&#x266D;&#x1D12A;</a>'));
  });
});
