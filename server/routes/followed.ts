import { type RequestHandler, Router } from 'express';
import type { FollowedEvent, FollowedScore } from '../followed-score.ts';
import { beginEvents, sendEvent } from '../http/event-stream.ts';
import { handleOtherMethods } from '../http/other-methods.ts';

/** Each save of the file, and what else becomes of it, as events for the page. */
const savesHandler =
  ({ id, fileName, choice, listen }: FollowedScore): RequestHandler =>
  (request, response) => {
    beginEvents(response);
    if (request.method === 'HEAD') return void response.end();
    const send = (event: FollowedEvent): void => {
      const told = event.kind === 'saved' ? { id, fileName, ...choice } : event;
      sendEvent(response, event.kind, JSON.stringify(told));
      if (event.kind === 'end') response.end();
    };
    const forget = listen(send);
    response.once('close', forget);
  };

const fileHandler =
  ({ bytes }: FollowedScore): RequestHandler =>
  (request, response, next) => {
    const latest = bytes();
    if (latest === null) return next({ code: 'not-found', path: request.path });
    response.set({ 'Content-Type': 'application/octet-stream', 'Cache-Control': 'no-store' });
    response.end(latest);
  };

/**
 * What the page asks of a file that a command follows, below a path that only the command's user knows.
 *
 * @param guards go before everything
 */
export const followedRouter = (score: FollowedScore, guards: readonly RequestHandler[]): Router => {
  const router = Router({ caseSensitive: true, strict: true });
  const askForToken: RequestHandler = (request, _response, next) =>
    score.isToken(String(request.params.token)) ? next() : next({ code: 'not-found', path: request.path });
  const routes = { saves: savesHandler(score), file: fileHandler(score) };
  for (const [name, handler] of Object.entries(routes)) {
    router
      .route(`/followed/:token/${name}`)
      .all(...guards, askForToken)
      .get(handler)
      .all(handleOtherMethods(['GET', 'HEAD', 'OPTIONS']));
  }
  return router;
};
