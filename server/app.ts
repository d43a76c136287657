import { randomUUID } from 'node:crypto';
import express, { type ErrorRequestHandler, type Request, type RequestHandler, type Response } from 'express';
import type { AnnotateForm } from '../render/annotation.ts';
import type { Annotate } from './annotate-job.ts';
import { chooseReplyType, type ReplyType } from './negotiate.ts';
import type { PoolState } from './pool.ts';
import { describeProblem, problemFrom } from './problems.ts';
import { type Query, readQuery } from './query.ts';
import { composeReply, type Reply } from './reply.ts';
import type { Outcome } from './service-problem.ts';
import { readUpload, UPLOAD_TYPES } from './upload.ts';
import { VERSION } from './version.ts';

/** What the service needs from outside. */
export interface AppParts {
  readonly annotate: Annotate;
  readonly poolState: () => PoolState;
  /** The largest file taken, in bytes. */
  readonly uploadLimitBytes: number;
  /** Told of each bug, once. */
  readonly logBug: (incident: string, bug: unknown) => void;
}

const ANNOTATE_PATH = '/v1/annotate';

/** How long a client may go on sending what is no longer read, before the connection is cut. */
const LINGER_MS = 5_000;

/** Nothing that is sent may load or run anything, or be taken for another type. */
const secure: RequestHandler = (_request, response, next) => {
  response.set({
    'Content-Security-Policy': "default-src 'none'; frame-ancestors 'none'",
    'X-Content-Type-Options': 'nosniff',
    'Referrer-Policy': 'no-referrer',
    'Cross-Origin-Resource-Policy': 'same-origin',
    'Cache-Control': 'no-store',
  });
  next();
};

/** Lets a client that is answered early finish sending, so that it sees the answer; but not for ever. */
const drainUpload: RequestHandler = (request, response, next) => {
  response.once('finish', () => {
    if (request.complete) return;
    request.resume();
    const cut = setTimeout(() => request.socket.destroy(), LINGER_MS).unref();
    request.once('close', () => clearTimeout(cut));
  });
  next();
};

/** Fires when the client goes away before its answer is sent. */
const goneSignal = (response: Response): AbortSignal => {
  const gone = new AbortController();
  response.once('close', () => {
    if (!response.writableFinished) gone.abort();
  });
  return gone.signal;
};

const queryOf = (request: Request): string => {
  const mark = request.url.indexOf('?');
  return mark === -1 ? '' : request.url.slice(mark + 1);
};

/** What the renderer is asked for: a report holds the pages as drawings. */
const formFor = (type: ReplyType, query: Query): AnnotateForm => {
  switch (type) {
    case 'application/pdf':
      return 'pdf';
    case 'image/svg+xml':
      return 'svg';
    case 'application/json':
      return query.withPages ? 'svg' : 'plan';
  }
};

/** What can be refused without the score is refused before the score is read. */
const annotateUpload = async (
  parts: AppParts,
  request: Request,
  gone: AbortSignal,
): Promise<Outcome<Reply>> => {
  const type = chooseReplyType((types) => request.accepts(types));
  if (!type.ok) return type;
  const query = readQuery(queryOf(request), type.value);
  if (!query.ok) return query;
  const upload = await readUpload(request, parts.uploadLimitBytes);
  if (!upload.ok) return upload;
  const job = { bytes: upload.value, options: query.value.options, form: formFor(type.value, query.value) };
  const annotated = await parts.annotate(job, gone);
  return annotated.ok ? composeReply(annotated.value, type.value, query.value, request.path) : annotated;
};

const handleAnnotate =
  (parts: AppParts): RequestHandler =>
  async (request, response, next) => {
    response.vary('Accept');
    const reply = await annotateUpload(parts, request, goneSignal(response));
    if (!reply.ok) return next(reply.problem);
    for (const [name, value] of Object.entries(reply.value.headers)) response.setHeader(name, value);
    response.setHeader('Content-Length', reply.value.body.byteLength);
    response.end(reply.value.body);
  };

/** Answers OPTIONS with the methods there are, and refuses other methods by name. */
const handleOtherMethods =
  (allowed: readonly string[], facts: Readonly<Record<string, string>> = {}): RequestHandler =>
  (request, response, next) => {
    if (request.method !== 'OPTIONS') {
      return next({ code: 'method-not-allowed', method: request.method, allowed });
    }
    response
      .status(204)
      .set({ Allow: allowed.join(', '), ...facts })
      .end();
  };

const reportHealth =
  (parts: AppParts): RequestHandler =>
  (_request, response) => {
    response.json({ status: 'ok', version: VERSION, pool: parts.poolState() });
  };

/** The one place where what went wrong becomes an answer. */
const answerProblem =
  (parts: AppParts): ErrorRequestHandler =>
  (thrown, _request, response, _next) => {
    const problem = problemFrom(thrown, (bug) => {
      const incident = randomUUID();
      parts.logBug(incident, bug);
      return incident;
    });
    if (response.headersSent) {
      response.destroy();
      return;
    }
    const { status, headers, body } = describeProblem(problem);
    response.status(status).set(headers);
    response.setHeader('Content-Type', 'application/problem+json');
    response.end(JSON.stringify(body));
  };

/** The service without a port: what answers which request. */
export const createApp = (parts: AppParts): express.Express => {
  const app = express();
  app.disable('x-powered-by');
  app.disable('etag');
  app.use(secure, drainUpload);
  app
    .route(ANNOTATE_PATH)
    .post(handleAnnotate(parts))
    .all(handleOtherMethods(['POST', 'OPTIONS'], { 'Accept-Post': UPLOAD_TYPES.join(', ') }));
  app
    .route('/healthz')
    .get(reportHealth(parts))
    .all(handleOtherMethods(['GET', 'HEAD', 'OPTIONS']));
  app.use((request, _response, next) => next({ code: 'not-found', path: request.path }));
  app.use(answerProblem(parts));
  return app;
};
