import { randomUUID } from 'node:crypto';
import compression from 'compression';
import express, { type ErrorRequestHandler, type RequestHandler } from 'express';
import type { Logger } from 'pino';
import type { EndpointId } from './api/endpoints/endpoint.ts';
import { ENDPOINTS } from './api/endpoints/endpoints.ts';
import type { FollowedScore } from './followed-score.ts';
import { limitRate, requireKey } from './http/access.ts';
import { eventOf, isTellingEvents } from './http/event-stream.ts';
import { refuseForeignOrigins } from './http/foreign-origin.ts';
import { observe } from './http/observe.ts';
import { handleOtherMethods } from './http/other-methods.ts';
import { askForHost, drainUpload, ignoreAcceptCharset, setSecurityHeaders } from './http/protect.ts';
import { FORM_TYPE } from './http/upload.ts';
import { createPageRouter } from './page/serve-page.ts';
import { describeProblem, problemFrom } from './problems.ts';
import {
  type AboutDependencies,
  docsHandler,
  healthHandler,
  instrumentsHandler,
  metricsHandler,
  openApiHandler,
  readinessHandler,
} from './routes/about.ts';
import { followedRouter } from './routes/followed.ts';
import { handoutHandler } from './routes/handouts.ts';
import {
  cancelHandler,
  eventsHandler,
  type JobDependencies,
  resultHandler,
  statusHandler,
  submitHandler,
} from './routes/jobs.ts';
import { markHandler, proofHandler } from './routes/proof.ts';
import {
  annotateHandler,
  compareHandler,
  divideHandler,
  fixesHandler,
  glissandiHandler,
  planHandler,
  settingAtBarHandler,
  settingHandler,
  tunesHandler,
} from './routes/scores.ts';

/** Who may ask, and how often. */
export interface AccessSettings {
  readonly apiKeys: readonly string[];
  /** Requests of one client; 0 for no limit. */
  readonly ratePerMinute: number;
  readonly trustedProxies: number;
}

/** What the service needs from outside. */
export interface AppDependencies extends JobDependencies, AboutDependencies {
  readonly access: AccessSettings;
  readonly log: Logger;
  /** A file that a command follows and the page shows live. */
  readonly followed?: FollowedScore;
}

/** What answers each endpoint. */
const listHandlers = (parts: AppDependencies): Readonly<Record<EndpointId, RequestHandler>> => ({
  annotate: annotateHandler(parts),
  plan: planHandler(parts),
  proof: proofHandler(parts),
  mark: markHandler(parts),
  compare: compareHandler(parts),
  tunes: tunesHandler(parts),
  fixes: fixesHandler(parts),
  divide: divideHandler(parts),
  glissandi: glissandiHandler(parts),
  setting: settingHandler(parts),
  'setting-at-bar': settingAtBarHandler(parts),
  handout: handoutHandler(parts),
  instruments: instrumentsHandler(),
  'submit-job': submitHandler(parts),
  job: statusHandler(parts),
  'job-events': eventsHandler(parts),
  'job-result': resultHandler(parts),
  'cancel-job': cancelHandler(parts),
  health: healthHandler(parts),
  readiness: readinessHandler(parts),
  metrics: metricsHandler(parts),
  openapi: openApiHandler(),
  docs: docsHandler(),
});

const methodsAt = (path: string): readonly string[] => {
  const methods = ENDPOINTS.filter((each) => each.path === path).map(({ method }) => method.toUpperCase());
  return [...methods.flatMap((method) => (method === 'GET' ? ['GET', 'HEAD'] : [method])), 'OPTIONS'];
};

const uploadsAt = (path: string): readonly string[] =>
  ENDPOINTS.filter((each) => each.path === path).flatMap(({ upload }) =>
    upload === null ? [] : [...upload, FORM_TYPE],
  );

/** The endpoints as they are described, so that the description cannot say what is not there. */
const routeEndpoints = (parts: AppDependencies): express.Router => {
  const router = express.Router({ caseSensitive: true, strict: true });
  const handlers = listHandlers(parts);
  const guards = [
    refuseForeignOrigins(parts.access.trustedProxies),
    limitRate(parts.access.ratePerMinute, parts.access.apiKeys),
    requireKey(parts.access.apiKeys),
  ];
  const pattern = (path: string): string => path.replace(/\{(\w+)\}/g, ':$1');
  for (const { id, method, path, guarded } of ENDPOINTS) {
    router.route(pattern(path))[method](...(guarded ? guards : []), handlers[id]);
  }
  for (const path of new Set(ENDPOINTS.map((each) => each.path))) {
    router.route(pattern(path)).all(handleOtherMethods(methodsAt(path), uploadsAt(path)));
  }
  return router;
};

/** The one place where what went wrong becomes an answer. */
const answerProblem =
  ({ log, metrics }: AppDependencies): ErrorRequestHandler =>
  (thrown, _request, response, _next) => {
    const problem = problemFrom(thrown, (bug) => {
      const incident = randomUUID();
      log.error({ incident, err: bug }, 'bug');
      return incident;
    });
    metrics.countProblem(problem.code);
    response.locals.problem = problem.code;
    const { status, headers, body } = describeProblem(problem);
    if (isTellingEvents(response)) {
      response.end(eventOf('problem', JSON.stringify(body)));
      return;
    }
    if (response.headersSent) {
      response.destroy();
      return;
    }
    response.removeHeader('ETag');
    response.status(status).set({ 'Cache-Control': 'no-store', ...headers });
    response.setHeader('Content-Type', 'application/problem+json');
    response.end(JSON.stringify(body));
  };

/** The service without a port: what answers which request. */
export const createApp = (parts: AppDependencies): express.Express => {
  const app = express();
  app.disable('x-powered-by');
  app.disable('etag');
  app.set('trust proxy', parts.access.trustedProxies);
  app.use(
    observe(parts.metrics, parts.log),
    setSecurityHeaders,
    askForHost,
    ignoreAcceptCharset,
    drainUpload,
    compression(),
  );
  app.use(createPageRouter());
  const { followed, access } = parts;
  if (followed !== undefined)
    app.use(followedRouter(followed, [refuseForeignOrigins(access.trustedProxies)]));
  app.use(routeEndpoints(parts));
  app.use((request, _response, next) => next({ code: 'not-found', path: request.path }));
  app.use(answerProblem(parts));
  return app;
};
