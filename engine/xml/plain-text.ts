import { codeOf } from './entities.ts';

/** What is told where something is not plain: it is left to the full parser. */
export const NOT_PLAIN = -1;

/** The characters of XML 1.0 that plain documents are read by; what else XML allows is left to the full parser. */

export const CODE = {
  tab: 9,
  newline: 10,
  return: 13,
  space: 32,
  quote: 34,
  ampersand: 38,
  apostrophe: 39,
  slash: 47,
  less: 60,
  equals: 61,
  greater: 62,
  question: 63,
} as const;

const ASCII_NAMES = Uint8Array.from({ length: 128 }, (_, code) => {
  const char = String.fromCharCode(code);
  if (/[A-Za-z_:]/u.test(char)) return 2;
  return /[0-9.-]/u.test(char) ? 1 : 0;
});

export const startsName = (code: number): boolean => code < 128 && ASCII_NAMES[code] === 2;

export const continuesName = (code: number): boolean => code < 128 && ASCII_NAMES[code] !== 0;

export const isSpace = (code: number): boolean =>
  code === CODE.space || code === CODE.newline || code === CODE.tab || code === CODE.return;

export const skipSpace = (text: string, from: number): number => {
  let at = from;
  while (isSpace(text.charCodeAt(at))) at += 1;
  return at;
};

/**
 * Past the character or entity at `at`, whose first code unit is `code`; `NOT_PLAIN` for what no document may have
 * (XML 1.0, `Char`), and at the end of the text.
 */
export const passCharacter = (text: string, at: number, code: number): number => {
  if (code === CODE.ampersand) return entityEnd(text, at);
  if ((code >= CODE.space && code < 0xd800) || (code >= 0xe000 && code <= 0xfffd) || isSpace(code))
    return at + 1;
  const point = text.codePointAt(at);
  return point !== undefined && point > 0xffff ? at + 2 : NOT_PLAIN;
};

const FORBIDDEN = /[^\t\n\r\x20-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/u;

/** Whether a document may have all these characters. */
export const areCharacters = (text: string): boolean => !FORBIDDEN.test(text);

const ENTITY = /&(?:(lt|gt|amp|quot|apos)|#([0-9]{1,7})|#x([0-9a-fA-F]{1,6}));/uy;

/** Where the entity that begins at `from` ends; `NOT_PLAIN` if it is none of XML's own five and no character. */
const entityEnd = (text: string, from: number): number => {
  ENTITY.lastIndex = from;
  const match = ENTITY.exec(text);
  if (match === null) return NOT_PLAIN;
  const [whole, named, decimal, hexadecimal] = match;
  if (named === undefined && !isCharacter(codeOf(decimal, hexadecimal))) return NOT_PLAIN;
  return from + whole.length;
};

const isCharacter = (code: number): boolean =>
  code === CODE.tab ||
  code === CODE.newline ||
  code === CODE.return ||
  (code >= 0x20 && code <= 0xd7ff) ||
  (code >= 0xe000 && code <= 0xfffd) ||
  (code >= 0x1_0000 && code <= 0x10_ffff);

/** Every end of a line is one character (XML 1.0, 2.11). */
export const withoutReturns = (text: string): string =>
  text.includes('\r') ? text.replace(/\r\n?/gu, '\n') : text;

/** Indentation between elements says nothing and is not kept. */
export const isBlank = (chunk: string): boolean => {
  for (let i = 0; i < chunk.length; i += 1) if (chunk.charCodeAt(i) > 32) return false;
  return true;
};
