import type { Response } from 'express';

export const EVENT_STREAM = 'text/event-stream';

/** One server-sent event (HTML Living Standard, 9.2.6). @param json a JSON text of one line */
export const eventOf = (name: string, json: string): string => `event: ${name}\ndata: ${json}\n\n`;

/** Begins an answer of events. */
export const beginEvents = (response: Response): void => {
  response.set({ 'Content-Type': `${EVENT_STREAM}; charset=utf-8`, 'Cache-Control': 'no-store' });
  response.flushHeaders();
};

/** Whether an answer of events has begun. */
export const isTellingEvents = (response: Response): boolean =>
  response.headersSent && String(response.getHeader('Content-Type')).startsWith(EVENT_STREAM);

/** Sends an event at once, though the answer is packed for the way. */
export const sendEvent = (response: Response, name: string, json: string): void => {
  response.write(eventOf(name, json));
  if ('flush' in response && typeof response.flush === 'function') response.flush();
};
