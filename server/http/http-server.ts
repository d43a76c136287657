import {
  createServer,
  type IncomingMessage,
  type RequestListener,
  type Server,
  type ServerResponse,
  STATUS_CODES,
} from 'node:http';
import type { Duplex } from 'node:stream';
import { describeProblem } from '../problems.ts';
import type { AnyProblem } from '../service-problem.ts';

/** What a server answers before there is a request that the app could see. */
const writeProblem = (socket: Duplex, problem: AnyProblem): void => {
  if (!socket.writable) return;
  const { status, headers, body } = describeProblem(problem);
  const text = JSON.stringify(body);
  const fields = {
    ...headers,
    'Content-Type': 'application/problem+json',
    'X-Content-Type-Options': 'nosniff',
    'Content-Length': `${Buffer.byteLength(text)}`,
    Connection: 'close',
  };
  const lines = Object.entries(fields).map(([name, value]) => `${name}: ${value}\r\n`);
  socket.end(`HTTP/1.1 ${status} ${STATUS_CODES[status]}\r\n${lines.join('')}\r\n${text}`);
};

/** The methods that something here answers to. */
const METHODS = ['GET', 'HEAD', 'POST', 'DELETE', 'OPTIONS'];

/** Answers what never reaches the app as every problem is answered: what is no HTTP, comes too late, or wants a tunnel. */
const answerBrokenRequests = (server: Server, arrivalSeconds: number): void => {
  server.on('clientError', (error: Error, socket: Duplex) => {
    const isLate = 'code' in error && error.code === 'ERR_HTTP_REQUEST_TIMEOUT';
    writeProblem(
      socket,
      isLate
        ? { code: 'request-timeout', limitSeconds: arrivalSeconds }
        : { code: 'bad-request', reason: error.message },
    );
  });
  server.on('connect', ({ method = '' }: IncomingMessage, socket: Duplex) => {
    socket.on('error', () => {});
    writeProblem(socket, { code: 'method-not-allowed', method, allowed: METHODS });
  });
  server.on('checkExpectation', (request: IncomingMessage, response: ServerResponse) => {
    const { status, body } = describeProblem({
      code: 'expectation-failed',
      expectation: request.headers.expect ?? '',
    });
    response.writeHead(status, { 'Content-Type': 'application/problem+json', Connection: 'close' });
    response.end(JSON.stringify(body));
  });
};

/** How often the time that requests take to arrive is looked at. */
const ARRIVAL_CHECK_MS = 1_000;

/** A server for an app. @param arrivalSeconds how long a request may take to arrive */
export const createHttpServer = (app: RequestListener, arrivalSeconds: number): Server => {
  const server = createServer(
    {
      requestTimeout: arrivalSeconds * 1000,
      headersTimeout: Math.min(20_000, arrivalSeconds * 1000),
      connectionsCheckingInterval: ARRIVAL_CHECK_MS,
      // The app asks for it, and says so as it says everything.
      requireHostHeader: false,
    },
    app,
  );
  answerBrokenRequests(server, arrivalSeconds);
  return server;
};
