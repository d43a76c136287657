import { isIP } from 'node:net';
import type { Request, RequestHandler } from 'express';

/** Where the browser says that a request comes from (Fetch Metadata, 2.4): the page's own origin, or the user. */
const OWN_SITES: readonly string[] = ['same-origin', 'none'];

/** The host of an origin with its port (RFC 6454, 6.2); null for `null` and for what is no origin. */
const hostOf = (origin: string): string | null => {
  try {
    return new URL(origin).host || null;
  } catch {
    return null;
  }
};

/** Names that no foreign server can be reached by, and numbers, which name this machine itself. */
const isLocalName = (hostname: string): boolean =>
  /^(?:.+\.)?localhost$/iu.test(hostname) || isIP(hostname.replace(/^\[|\]$/gu, '')) !== 0;

const arrivesLocally = ({ socket }: Request): boolean =>
  /^(?:::ffff:)?127\.|^::1$/u.test(socket.localAddress ?? '');

/** @returns the page's origin, or what the browser says of it; null where a page of this service asks, or no page at all */
const foreignOriginOf = (request: Request, trustedProxies: number): string | null => {
  const site = request.get('Sec-Fetch-Site');
  const origin = request.get('Origin');
  if (site === undefined && origin === undefined) return null;
  if (site !== undefined && !OWN_SITES.includes(site)) return origin ?? site;
  if (site === undefined && hostOf(origin!) !== request.host) return origin!;
  // A name of its own that a foreign server points at this machine makes its page one of the same origin.
  const renamed = arrivesLocally(request) && trustedProxies === 0 && !isLocalName(request.hostname ?? '');
  return renamed ? (request.host ?? '') : null;
};

/** Keeps pages of other origins from using a service that only the user's own machine or network reaches. */
export const refuseForeignOrigins =
  (trustedProxies: number): RequestHandler =>
  (request, _response, next) => {
    const origin = foreignOriginOf(request, trustedProxies);
    if (origin === null) next();
    else next({ code: 'foreign-origin', origin });
  };
