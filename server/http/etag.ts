import { createHash } from 'node:crypto';
import { VERSION } from '../version.ts';

/**
 * Names an answer by all that it follows from: the version of the program, and what was asked. Weak, since the answer
 * may be packed for the way (RFC 9110, 8.8.1).
 *
 * @param digest of the bytes that were sent; null where none were
 */
export const etagOf = (asked: unknown, digest: Uint8Array | null): string => {
  const hash = createHash('sha256').update(VERSION).update('\0').update(JSON.stringify(asked));
  if (digest !== null) hash.update('\0').update(digest);
  return `W/"${hash.digest('base64url')}"`;
};

const opaque = (etag: string): string => etag.trim().replace(/^W\//, '');

/** Whether the client has the answer already, or any where it says `*` (RFC 9110, 13.1.2, by weak comparison). */
export const matchesEtag = (ifNoneMatch: string | undefined, etag: string): boolean =>
  ifNoneMatch?.split(',').some((each) => each.trim() === '*' || opaque(each) === opaque(etag)) ?? false;
