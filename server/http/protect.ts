import type { RequestHandler, Response } from 'express';

/** How long a client may go on sending what is no longer read, before the connection is cut. */
const LINGER_MS = 5_000;

/** Nothing that is sent may load or run anything, or be taken for another type. */
export const setSecurityHeaders: RequestHandler = (_request, response, next) => {
  response.set({
    'Content-Security-Policy': "default-src 'none'; frame-ancestors 'none'",
    'X-Content-Type-Options': 'nosniff',
    'Referrer-Policy': 'no-referrer',
    'Cross-Origin-Resource-Policy': 'same-origin',
    'Cross-Origin-Opener-Policy': 'same-origin',
    'Cache-Control': 'no-store',
  });
  next();
};

/** A request must name its host (RFC 9112, 3.2), since HTTP 1.1. */
export const askForHost: RequestHandler = (request, _response, next) => {
  if (request.headers.host === undefined && request.httpVersion !== '1.0') {
    next({ code: 'bad-request', reason: 'it has no Host' });
  } else next();
};

/** No type on offer has a character set to choose: clients that name one mean the type alone. */
export const ignoreAcceptCharset: RequestHandler = (request, _response, next) => {
  const { accept } = request.headers;
  if (accept !== undefined) request.headers.accept = accept.replace(/;\s*charset\s*=\s*"?[\w-]*"?/gi, '');
  next();
};

/** Lets a client that is answered early finish sending, so that it sees the answer; but not for ever. */
export const drainUpload: RequestHandler = (request, response, next) => {
  response.once('finish', () => {
    if (request.complete) return;
    request.resume();
    const cut = setTimeout(() => request.socket.destroy(), LINGER_MS).unref();
    request.once('close', () => clearTimeout(cut));
  });
  next();
};

/** Fires when the client goes away before its answer is sent. */
export const disconnectSignal = (response: Response): AbortSignal => {
  const gone = new AbortController();
  response.once('close', () => {
    if (!response.writableFinished) gone.abort();
  });
  return gone.signal;
};
