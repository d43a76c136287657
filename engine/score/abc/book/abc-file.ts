import { ok, type Result } from '../../../problem.ts';
import { decodeText } from '../../file/decode.ts';
import { type Remark, remarkOnAll } from '../../model/remark.ts';
import { isAbc } from './tune-book.ts';

/** The text of an ABC file, and what was assumed of its encoding. */
export interface AbcText {
  readonly text: string;
  readonly remarks: readonly Remark[];
}

/** A file is looked at so far to tell whether it is ABC. */
const LOOKED_AT = 20_000;

/** Bytes as characters of the same numbers. */
export const asLatin1 = (bytes: Uint8Array): string => {
  const parts: string[] = [];
  for (let start = 0; start < bytes.length; start += 8192)
    parts.push(Reflect.apply(String.fromCharCode, null, bytes.subarray(start, start + 8192)));
  return parts.join('');
};

const CHARSET = /^(?:%%|I:)\s*abc-charset\s+(?:iso-?8859-?1|latin-?1|us-ascii|windows-1252)/imu;

/**
 * The text of a file that is ABC; null for a file that is not.
 *
 * Files of before the standard of 2010 are in Latin-1 and seldom say so: what is no UTF-8 is read as that.
 */
export const readAbcFile = (bytes: Uint8Array): Result<AbcText | null> => {
  const start = asLatin1(bytes.subarray(0, LOOKED_AT)).replace(/^\xEF\xBB\xBF/u, '');
  // Wide characters have noughts between their bytes: ABC in UTF-16 is told apart once it is decoded.
  const isWide = start.startsWith('\xFF\xFE') || start.startsWith('\xFE\xFF');
  if (!isWide && !isAbc(start)) return ok(null);
  if (CHARSET.test(start)) return ok({ text: asLatin1(bytes), remarks: [] });
  const decoded = decodeText(bytes);
  if (decoded.ok) return ok(isAbc(decoded.value.text) ? { text: decoded.value.text, remarks: [] } : null);
  if (decoded.problem.code !== 'bad-characters' || isWide) return decoded;
  const message = 'The file is not UTF-8: its text is read as ISO-8859-1.';
  return ok({ text: asLatin1(bytes), remarks: [remarkOnAll('text-encoding', message)] });
};
