import { randomUUID } from 'node:crypto';
import type { Request, RequestHandler } from 'express';
import type { Logger } from 'pino';
import type { Metrics } from '../metrics.ts';

/** The pattern that answered a request; addresses and queries may tell of a score. */
const routeOf = (request: Request): string => {
  const path: unknown = request.route?.path;
  return typeof path === 'string' ? path : 'none';
};

/** Counts and logs every request when it is over: what was asked and how it went, and nothing of what was sent. */
export const observe =
  (metrics: Metrics, log: Logger): RequestHandler =>
  (request, response, next) => {
    const requestId = randomUUID();
    const start = performance.now();
    response.setHeader('Tringle-Request-Id', requestId);
    response.once('close', () => {
      const seconds = (performance.now() - start) / 1000;
      // 499 is no status of HTTP: the client was gone before there was one.
      const status = response.writableFinished ? response.statusCode : 499;
      const route = routeOf(request);
      metrics.countRequest(request.method, route, status, seconds);
      log.info(
        {
          requestId,
          method: request.method,
          route,
          status,
          problem: response.locals.problem,
          milliseconds: Math.round(seconds * 1000),
        },
        'request',
      );
    });
    next();
  };
