import { ok, type Result } from '../problem.ts';
import { parseFully } from './full-document.ts';
import { readPlainDocument } from './plain-document.ts';
import type { XmlElement } from './tree.ts';

export interface XmlLimits {
  readonly depth: number;
  readonly elements: number;
}

/** Deep enough for any real score (MEI nests about 25 levels); large enough for a symphony movement in full score. */
export const XML_LIMITS: XmlLimits = { depth: 200, elements: 6_000_000 };

/**
 * Parses a whole document into elements that know their place in `text`.
 *
 * DOCTYPEs are passed over and nothing they name is fetched; entities other than XML's own five are refused, so
 * that no text expands. Linear time and memory; parsing stops at the first broken rule or passed limit.
 *
 * @returns the root element, or `malformed-xml`, `entity-refused` or `limit-exceeded`
 */
export const parseXml = (text: string, limits: XmlLimits = XML_LIMITS): Result<XmlElement> => {
  const plain = readPlainDocument(text, limits);
  return plain === null ? parseFully(text, limits) : ok(plain);
};
