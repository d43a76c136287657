import type { Route } from 'playwright-core';
import { eventOf } from '../../server/http/event-stream.ts';

/** Answers as the service does for a part of one page. */
export const tellPage = (route: Route, svg: string): Promise<void> =>
  route.fulfill({
    contentType: 'text/event-stream',
    body:
      eventOf('page', JSON.stringify({ number: 1, of: 1, svg })) +
      eventOf('end', JSON.stringify({ report: { pageCount: 1 }, letters: '' })),
  });
