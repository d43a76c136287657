import { createHash, timingSafeEqual } from 'node:crypto';
import type { Request, RequestHandler } from 'express';
import { ipKeyGenerator, rateLimit } from 'express-rate-limit';

const digestOf = (key: string): Buffer => createHash('sha256').update(key).digest();

/** The key that a request bears (RFC 6750, 2.1); null where it bears none. */
const keyIn = (request: Request): string | null =>
  /^Bearer +(\S+)$/i.exec(request.get('Authorization') ?? '')?.[1] ?? null;

/** Tells which of the known keys a request bears: its digest, or null. Takes the same time for any wrong key. */
const keyFinder = (keys: readonly string[]): ((request: Request) => string | null) => {
  const known = keys.map(digestOf);
  return (request) => {
    const key = keyIn(request);
    if (key === null) return null;
    const digest = digestOf(key);
    const matches = known.map((each) => timingSafeEqual(each, digest));
    return matches.includes(true) ? digest.toString('base64url') : null;
  };
};

/** Lets only those in who bear a key; everyone where there are no keys. */
export const requireKey = (keys: readonly string[]): RequestHandler => {
  const findKey = keyFinder(keys);
  return (request, _response, next) => {
    if (keys.length === 0 || findKey(request) !== null) next();
    else next({ code: 'unauthorized' });
  };
};

const MINUTE_MS = 60_000;

/** Bounds the requests of one client: one key, or one address. */
export const limitRate = (perMinute: number, keys: readonly string[]): RequestHandler => {
  const findKey = keyFinder(keys);
  return rateLimit({
    windowMs: MINUTE_MS,
    limit: perMinute,
    standardHeaders: 'draft-8',
    legacyHeaders: false,
    skip: () => perMinute === 0,
    keyGenerator: (request) => findKey(request) ?? ipKeyGenerator(request.ip ?? ''),
    handler: (request, response, next) => {
      const reset = (request as Request & { rateLimit?: { resetTime?: Date } }).rateLimit?.resetTime;
      const left = reset === undefined ? MINUTE_MS : reset.getTime() - Date.now();
      const retryAfterSeconds = Math.max(1, Math.ceil(left / 1000));
      response.removeHeader('Retry-After');
      next({ code: 'too-many-requests', limitPerMinute: perMinute, retryAfterSeconds });
    },
  });
};
