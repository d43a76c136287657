import type { Response } from 'express';
import type { AnnotateJob, Perform } from '../threads/job.ts';
import { beginEvents, eventOf, sendEvent } from './event-stream.ts';
import { type Answer, problemAnswer } from './send.ts';

/**
 * Sends pages as they are ready, each as an event. A score that cannot be drawn is refused like any other request: the
 * events begin with the drawing. What fails after that is told by the last event.
 */
export const tellPages = async (
  annotate: Perform<AnnotateJob>,
  job: AnnotateJob,
  gone: AbortSignal,
  response: Response,
): Promise<Answer> => {
  const send = (name: string, told: unknown): void => {
    if (!response.headersSent) beginEvents(response);
    sendEvent(response, name, JSON.stringify(told));
  };
  const made = await annotate(
    job,
    gone,
    (progress) => {
      if (progress.stage === 'engrave') send('progress', progress);
    },
    (page) => send('page', page),
  );
  if (!made.ok) return problemAnswer(made.problem);
  if (!response.headersSent) beginEvents(response);
  response.end(eventOf('end', new TextDecoder().decode(made.value.body)));
  return { kind: 'sent' };
};
