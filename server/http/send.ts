import type { Request, RequestHandler, Response } from 'express';
import type { AnyProblem } from '../service-problem.ts';
import type { Reply } from '../threads/job.ts';
import { matchesEtag } from './etag.ts';

/** What a handler answers: a reply, 304 for what the client has, a problem, or that it has sent all itself. */
export type Answer =
  | { readonly kind: 'reply'; readonly status: number; readonly reply: Reply }
  | { readonly kind: 'known' }
  | { readonly kind: 'sent' }
  | { readonly kind: 'problem'; readonly problem: AnyProblem };

export const answer = (reply: Reply, status = 200): Answer => ({ kind: 'reply', status, reply });

export const problemAnswer = (problem: AnyProblem): Answer => ({ kind: 'problem', problem });

/** Express runs handlers; these say what to answer, and this sends it. Headers are set when the body is there. */
export const handle =
  (find: (request: Request, response: Response) => Promise<Answer>): RequestHandler =>
  async (request, response, next) => {
    const found = await find(request, response);
    switch (found.kind) {
      case 'problem':
        return next(found.problem);
      case 'known':
        response.status(304).end();
        return;
      case 'sent':
        return;
      case 'reply': {
        const { headers, body } = found.reply;
        response.status(found.status);
        for (const [name, value] of Object.entries(headers)) response.setHeader(name, value);
        response.setHeader('Content-Length', body.byteLength);
        response.end(body);
      }
    }
  };

/**
 * Marks the answer with its name before it is made.
 *
 * @returns whether the client has it already
 */
export const setEtag = (request: Request, response: Response, etag: string): boolean => {
  response.set({ ETag: etag, 'Cache-Control': 'private, no-cache' });
  return matchesEtag(request.get('If-None-Match'), etag);
};

/** What follows the question mark. */
export const queryOf = (request: Request): string => {
  const mark = request.url.indexOf('?');
  return mark === -1 ? '' : request.url.slice(mark + 1);
};
