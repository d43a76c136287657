import type { RequestHandler } from 'express';

/** Answers OPTIONS with the methods there are, and refuses other methods by name. */
export const handleOtherMethods =
  (allowed: readonly string[], uploads: readonly string[] = []): RequestHandler =>
  (request, response, next) => {
    if (request.method !== 'OPTIONS') {
      return next({ code: 'method-not-allowed', method: request.method, allowed });
    }
    response.status(204).set({ Allow: allowed.join(', ') });
    if (uploads.length > 0) response.set('Accept-Post', uploads.join(', '));
    response.end();
  };
