import { asLatin1 } from './abc-file.ts';

/** One tune of a book as a file of its own, by its place in the list and the number that it is listed by. */
export type CutTune = (index: number, number: string) => Uint8Array;

/**
 * Takes a tune book apart, so that what is done with one tune need not read all of them: each is cut out when it is
 * wanted, with the head that holds for all and as many empty lines before it as keep the numbers of its lines.
 *
 * @param bytes a file of which `listTunes` lists tunes
 * @returns cuts a tune out; gives the whole book where the tune cannot stand alone: in wide characters, or without key
 */
export const cutTunes = (bytes: Uint8Array): CutTune => {
  const starts = findStarts(bytes);
  const [first] = starts;
  return (index, number) => {
    const start = starts[index];
    if (start === undefined || first === undefined || !/^[\x20-\x24\x26-\x7E]*$/u.test(number)) return bytes;
    const own = asLatin1(bytes.subarray(start.at, starts[index + 1]?.at));
    if (!/^K:/mu.test(own)) return bytes;
    // Books that were put together number their tunes anew: alone it has the number that tells it apart.
    const named = own.replace(/^X:[^\r\n]*/u, () => `X:${number}`);
    const head = asLatin1(bytes.subarray(0, first.at));
    return asBytes(`${head}${'\n'.repeat(start.line - first.line)}${named}`);
  };
};

interface TuneStart {
  readonly at: number;
  /** From 0. */
  readonly line: number;
}

const [LINE_FEED, RETURN, COLON, X] = [0x0a, 0x0d, 0x3a, 0x58];
/** Of UTF-8, in bytes. */
const BYTE_ORDER_MARK = [0xef, 0xbb, 0xbf];

/**
 * Where lines begin with `X:`, whatever ends lines; none in wide characters, in which noughts stand between. Byte by
 * byte: a book may be as large as a file may be.
 */
const findStarts = (bytes: Uint8Array): readonly TuneStart[] => {
  const starts: TuneStart[] = [];
  const hasMark = BYTE_ORDER_MARK.every((byte, i) => bytes[i] === byte);
  let line = 0;
  let isStart = true;
  for (let at = hasMark ? BYTE_ORDER_MARK.length : 0; at < bytes.length; at += 1) {
    if (isStart && bytes[at] === X && bytes[at + 1] === COLON) starts.push({ at, line });
    isStart = bytes[at] === LINE_FEED || (bytes[at] === RETURN && bytes[at + 1] !== LINE_FEED);
    if (isStart) line += 1;
  }
  return starts;
};

const asBytes = (latin1: string): Uint8Array => Uint8Array.from(latin1, (each) => each.charCodeAt(0));
