import { cutFacts } from './cut.ts';
import { isScoreName } from './jobs/open-archive.ts';
import { type AnyProblem, type AnyProblemCode, anyProblemMessage, partToChoose } from './service-problem.ts';

interface ProblemClass {
  readonly status: number;
  /** The same for every occurrence (RFC 9457, 3.1.3). */
  readonly title: string;
}

/**
 * HTTP status and title of every problem. 400: the bytes are not what they claim to be; 422: they can be read, but no
 * harp part can be made of them (RFC 9110, 15.5.1 and 15.5.21).
 */
export const PROBLEM_CLASSES: Readonly<Record<AnyProblemCode, ProblemClass>> = {
  'empty-input': { status: 400, title: 'The file is empty' },
  'unknown-encoding': { status: 400, title: 'The text encoding is not supported' },
  'bad-characters': { status: 400, title: 'The file is not valid text' },
  'malformed-xml': { status: 400, title: 'The XML is broken' },
  'archive-corrupt': { status: 400, title: 'The compressed file cannot be unpacked' },
  'not-a-score': { status: 422, title: 'The file is not a score' },
  'entity-refused': { status: 422, title: 'The file uses an entity' },
  'archive-without-score': { status: 422, title: 'There is no score in the archive' },
  'limit-exceeded': { status: 413, title: 'The file is too large' },
  'bad-value': { status: 422, title: 'The score contains an invalid value' },
  unsupported: { status: 422, title: 'The score uses something that is not supported' },
  'no-parts': { status: 422, title: 'The score has no parts' },
  'harp-not-found': { status: 422, title: 'No harp was found' },
  'unknown-part': { status: 422, title: 'The score has no such part' },
  'no-notes': { status: 422, title: 'The part has no notes' },
  'choose-tune': { status: 422, title: 'The file has several tunes' },
  'unknown-movement': { status: 422, title: 'The file has no such movement' },
  'unknown-tune': { status: 422, title: 'The file has no such tune' },
  'bad-tune': { status: 422, title: 'The ABC of the tune is broken' },
  'no-music': { status: 422, title: 'The ABC has no notes' },
  'layout-failed': { status: 422, title: 'The part cannot be laid out' },
  'not-found': { status: 404, title: 'There is nothing at this address' },
  'method-not-allowed': { status: 405, title: 'The method is not allowed here' },
  'not-acceptable': { status: 406, title: 'The result is not available in that form' },
  'unsupported-media-type': { status: 415, title: 'The media type is not accepted' },
  'unsupported-content-coding': { status: 415, title: 'The content coding is not supported' },
  'payload-too-large': { status: 413, title: 'The upload is too large' },
  'bad-multipart': { status: 400, title: 'The form cannot be used' },
  'bad-request': { status: 400, title: 'The request cannot be read' },
  'unknown-option': { status: 400, title: 'There is no such option' },
  'bad-option': { status: 400, title: 'The option has an invalid value' },
  'missing-option': { status: 400, title: 'An option is missing' },
  'page-out-of-range': { status: 404, title: 'There is no such page' },
  'expectation-failed': { status: 417, title: 'The expectation cannot be met' },
  'foreign-origin': { status: 403, title: 'A page of another origin asks' },
  unauthorized: { status: 401, title: 'A key is needed' },
  'too-many-requests': { status: 429, title: 'Too many requests' },
  'request-timeout': { status: 408, title: 'The request took too long to arrive' },
  'job-not-found': { status: 404, title: 'There is no such job' },
  'job-without-result': { status: 409, title: 'The job has no result' },
  'too-many-scores': { status: 413, title: 'There are too many scores' },
  'storage-full': { status: 507, title: 'There is no space to store the job' },
  busy: { status: 503, title: 'The service is busy' },
  'timed-out': { status: 504, title: 'The score took too long' },
  'job-timed-out': { status: 504, title: 'The job took too long' },
  cancelled: { status: 503, title: 'The request was cancelled' },
  internal: { status: 500, title: 'The service failed' },
};

/** What a problem looks like over HTTP (RFC 9457). */
export interface ProblemReply {
  readonly status: number;
  readonly headers: Readonly<Record<string, string>>;
  readonly body: Readonly<Record<string, unknown>>;
}

/** Header fields that HTTP asks for beside a status (RFC 9110, 10.2.1, 10.2.3, 12.5.1, 12.5.3). */
const headersOf = (problem: AnyProblem): Readonly<Record<string, string>> => {
  switch (problem.code) {
    case 'method-not-allowed':
      return { Allow: problem.allowed.join(', ') };
    case 'unsupported-media-type':
      return { Accept: problem.accepted.join(', ') };
    case 'unsupported-content-coding':
      return { 'Accept-Encoding': 'identity' };
    case 'unauthorized':
      return { 'WWW-Authenticate': 'Bearer realm="tringle"' };
    case 'too-many-requests':
    case 'busy':
      return { 'Retry-After': `${problem.retryAfterSeconds}` };
    default:
      return {};
  }
};

/** The `type` of a problem: stable, so that programs can tell problems apart by it. */
export const problemType = (code: AnyProblemCode): string => `urn:tringle:problem:${code}`;

/** The sentence, with what to send instead. */
const problemDetail = (problem: AnyProblem): string =>
  [anyProblemMessage(problem), ...adviceOnRequest(problem)].join(' ');

const adviceOnRequest = (problem: AnyProblem): readonly string[] => {
  if (problem.code === 'archive-without-score' && problem.entries.some(isScoreName)) {
    return ['To process an archive of scores, send it to /v1/jobs.'];
  }
  if (problem.code === 'layout-failed') {
    return ['Its plan can be had without pages: ask for application/json with ?pages=none.'];
  }
  const part = partToChoose(problem);
  return part === null
    ? []
    : [`Name it in the request, as in ?${part.option}=${encodeURIComponent(part.id)}.`];
};

/** The problem with its type, title, status and sentence, and its facts as further members. */
export const describeProblem = (found: AnyProblem): ProblemReply => {
  const problem = cutFacts(found);
  const { code, ...facts } = problem;
  const { status, title } = PROBLEM_CLASSES[code];
  return {
    status,
    headers: headersOf(problem),
    body: { ...facts, type: problemType(code), title, status, detail: problemDetail(problem) },
  };
};

const isProblem = (value: unknown): value is AnyProblem =>
  typeof value === 'object' &&
  value !== null &&
  !(value instanceof Error) &&
  'code' in value &&
  typeof value.code === 'string' &&
  Object.hasOwn(PROBLEM_CLASSES, value.code);

/** Errors that the HTTP layer itself raises about a request carry a status of 4xx and a sentence meant for the client. */
const isClientError = (value: unknown): value is Error & { readonly status: number } =>
  value instanceof Error &&
  'status' in value &&
  typeof value.status === 'number' &&
  value.status >= 400 &&
  value.status < 500;

/**
 * The problem that something handed to the error middleware stands for.
 *
 * @param thrown a problem, an error of the HTTP layer, or a bug
 * @param recordIncident is told of a bug and answers with the name it is recorded under
 */
export const problemFrom = (thrown: unknown, recordIncident: (bug: unknown) => string): AnyProblem => {
  if (isProblem(thrown)) return thrown;
  if (isClientError(thrown)) return { code: 'bad-request', reason: thrown.message };
  return { code: 'internal', incident: recordIncident(thrown) };
};
