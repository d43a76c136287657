import type { RequestHandler } from 'express';
import { DOCS_POLICY, writeDocsPage } from '../api/docs-page.ts';
import { describeApi } from '../api/openapi.ts';
import { listInstruments } from '../api/requests/instruments.ts';
import { etagOf } from '../http/etag.ts';
import { replyJson } from '../http/reply.ts';
import { answer, handle, setEtag } from '../http/send.ts';
import type { Metrics } from '../metrics.ts';
import type { Reply } from '../threads/job.ts';
import type { PoolState } from '../threads/worker-pool.ts';
import { VERSION } from '../version.ts';

/** What requests about the service itself need. */
export interface AboutDependencies {
  readonly poolState: () => PoolState;
  /** Why no requests are taken; empty where they are. */
  readonly listReadinessProblems: () => Promise<readonly string[]>;
  readonly metrics: Metrics;
}

export const healthHandler = ({ poolState }: AboutDependencies): RequestHandler =>
  handle(async () => answer(replyJson({ status: 'ok', version: VERSION, pool: poolState() })));

export const readinessHandler = ({
  listReadinessProblems: findHindrances,
}: AboutDependencies): RequestHandler =>
  handle(async () => {
    const reasons = await findHindrances();
    const ready = reasons.length === 0;
    return answer(replyJson({ ready, reasons }), ready ? 200 : 503);
  });

const textReply = (type: string, text: string, headers: Reply['headers'] = {}): Reply => ({
  headers: { 'Content-Type': type, ...headers },
  body: new TextEncoder().encode(text),
});

export const metricsHandler = ({ metrics }: AboutDependencies): RequestHandler =>
  handle(async () => answer(textReply(metrics.contentType, await metrics.write())));

/** An answer that is the same for everyone: made once, and named by what it is. */
const constant = (make: () => Reply): RequestHandler => {
  const reply = make();
  const etag = etagOf(null, reply.body);
  return handle(async (request, response) =>
    setEtag(request, response, etag) ? { kind: 'known' } : answer(reply),
  );
};

export const instrumentsHandler = (): RequestHandler => constant(() => replyJson(listInstruments()));

export const openApiHandler = (): RequestHandler => constant(() => replyJson(describeApi()));

export const docsHandler = (): RequestHandler =>
  constant(() =>
    textReply('text/html; charset=utf-8', writeDocsPage(), { 'Content-Security-Policy': DOCS_POLICY }),
  );
