import { listChoices, nameCount, type Problem, problemMessage } from '../engine/index.ts';

/** What the service itself can refuse, beside what the engine refuses about a score. */
export type ServiceProblem =
  | { readonly code: 'not-found'; readonly path: string }
  | { readonly code: 'method-not-allowed'; readonly method: string; readonly allowed: readonly string[] }
  | {
      readonly code: 'not-acceptable';
      readonly offered: readonly string[];
      /** The option that decides the form of the result, where that is not `Accept`. */
      readonly option?: string;
    }
  | {
      readonly code: 'unsupported-media-type';
      readonly mediaType: string;
      readonly accepted: readonly string[];
    }
  | { readonly code: 'unsupported-content-coding'; readonly coding: string }
  | { readonly code: 'payload-too-large'; readonly limitBytes: number }
  | { readonly code: 'bad-multipart'; readonly reason: string }
  | { readonly code: 'bad-request'; readonly reason: string }
  | {
      readonly code: 'unknown-option';
      readonly option: string;
      readonly nearest: string | null;
      readonly options: readonly string[];
    }
  | {
      readonly code: 'missing-option';
      readonly option: string;
      readonly expected: string;
      readonly example: string | null;
    }
  | {
      readonly code: 'bad-option';
      readonly option: string;
      readonly value: string;
      readonly expected: string;
    }
  | { readonly code: 'page-out-of-range'; readonly page: number; readonly pageCount: number }
  | { readonly code: 'busy'; readonly retryAfterSeconds: number }
  | { readonly code: 'expectation-failed'; readonly expectation: string }
  /** A page of another origin asks, or one that goes by a foreign name. */
  | { readonly code: 'foreign-origin'; readonly origin: string }
  | { readonly code: 'unauthorized' }
  | {
      readonly code: 'too-many-requests';
      readonly limitPerMinute: number;
      readonly retryAfterSeconds: number;
    }
  | { readonly code: 'request-timeout'; readonly limitSeconds: number }
  | { readonly code: 'job-not-found' }
  | { readonly code: 'job-without-result'; readonly state: string }
  | { readonly code: 'too-many-scores'; readonly limit: number; readonly found: number }
  | { readonly code: 'storage-full' }
  | { readonly code: 'timed-out'; readonly limitSeconds: number }
  | { readonly code: 'job-timed-out'; readonly limitSeconds: number }
  | { readonly code: 'cancelled' }
  | { readonly code: 'internal'; readonly incident: string };

export type AnyProblem = Problem | ServiceProblem;

export type AnyProblemCode = AnyProblem['code'];

/** As the engine's `Result`, with the service's own problems added; every `Result` is an `Outcome`. */
export type Outcome<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problem: AnyProblem };

export const fail = (problem: AnyProblem): { readonly ok: false; readonly problem: AnyProblem } => ({
  ok: false,
  problem,
});

const megabytes = (bytes: number): string =>
  bytes >= 1_000_000 ? `${Math.round(bytes / 100_000) / 10} MB` : `${bytes} bytes`;

/** The id of a part that may be chosen instead, by which option, where the problem is that none or the wrong one was. */
export const partToChoose = (
  problem: AnyProblem,
): { readonly option: 'part' | 'withPart'; readonly id: string } | null => {
  if (problem.code !== 'unknown-part' && problem.code !== 'harp-not-found' && problem.code !== 'no-notes')
    return null;
  const part = problem.code === 'no-notes' ? problem.parts.find(({ notes }) => notes > 0) : problem.parts[0];
  if (part === undefined) return null;
  return { option: problem.code === 'unknown-part' ? problem.option : 'part', id: part.id };
};

/** What a person is told of each, from its facts: what is wrong and what to do. */
const SENTENCES: {
  readonly [Code in ServiceProblem['code']]: (
    problem: Extract<ServiceProblem, { readonly code: Code }>,
  ) => string;
} = {
  'not-found': ({ path }) => `There is nothing at ${path}. Send a score with POST to /v1/annotate.`,
  'method-not-allowed': ({ method, allowed }) =>
    `${method} is not allowed here. Use ${listChoices(allowed)}.`,
  'not-acceptable': ({ offered, option }) =>
    `The result is available as ${offered.join(', ')}. ${
      option === undefined
        ? 'Ask for one of these in Accept.'
        : `Accept must allow one of these. Choose the kind of result with the option ${option}.`
    }`,
  'unsupported-media-type': ({ mediaType, accepted }) =>
    `${mediaType === '' ? 'The request names no Content-Type' : `“${mediaType}” is not accepted`}. Send the score as one of ${accepted.join(', ')}.${mediaType === 'application/zip' ? ' An archive of scores goes to /v1/jobs.' : ''}`,
  'unsupported-content-coding': ({ coding }) =>
    `The content coding “${coding}” is not supported. Send the file as it is; a compressed MusicXML file (.mxl) needs no coding.`,
  'payload-too-large': ({ limitBytes }) =>
    `The upload is larger than ${megabytes(limitBytes)}. Send the harp part without the rest of the score.`,
  'bad-multipart': ({ reason }) =>
    `The form cannot be used: ${reason}. Send one file, with options in the query or as JSON in the part “options”.`,
  'bad-request': ({ reason }) => `The request cannot be read: ${reason}. Correct it and send it again.`,
  'unknown-option': ({ option, nearest, options }) =>
    `There is no option “${option}”. ${nearest === null ? `The options are ${options.join(', ')}.` : `Did you mean “${nearest}”?`}`,
  'bad-option': ({ value, option, expected }) =>
    `“${value}” is not a valid value for the option ${option}: ${expected}.`,
  'missing-option': ({ option, expected, example }) =>
    `The option ${option} is missing: ${expected}${example === null ? '' : `, such as “${example}”`}.`,
  'page-out-of-range': ({ page, pageCount }) =>
    `There is no page ${page}: the part has ${nameCount(pageCount, 'page')}. Ask for one of these, counted from 1.`,
  busy: ({ retryAfterSeconds }) => `The service is busy. Try again in ${retryAfterSeconds} seconds.`,
  'expectation-failed': ({ expectation }) =>
    `The expectation “${expectation}” cannot be met. Send the request without Expect, or with 100-continue.`,
  'foreign-origin': ({ origin }) =>
    `A page of ${origin} may not use this service. Open the service's own page, by localhost or its IP address; behind a proxy set TRUSTED_PROXIES.`,
  unauthorized: () => 'This service needs a key. Send it as Authorization: Bearer KEY.',
  'too-many-requests': ({ limitPerMinute, retryAfterSeconds }) =>
    `You have sent more than ${limitPerMinute} requests in a minute. Try again in ${retryAfterSeconds} seconds.`,
  'request-timeout': ({ limitSeconds }) =>
    `The request did not arrive within ${limitSeconds} seconds. Send it again, over a quicker connection or with the harp part alone.`,
  'job-not-found': () =>
    'There is no such job. It may have been cancelled, or its results are no longer kept: send the scores again.',
  'job-without-result': ({ state }) =>
    state === 'failed'
      ? 'The job failed and has no result. Send it again.'
      : `The job is ${state}: there is no result yet. Ask again when its state is “done”.`,
  'too-many-scores': ({ found, limit }) =>
    `There are ${found} scores or tunes; one job takes at most ${limit}. Send them in several jobs.`,
  'storage-full': () => 'The service has no space to store the job. Try again later.',
  'timed-out': ({ limitSeconds }) =>
    `The score took longer than ${limitSeconds} seconds. Send the harp part alone, or one movement at a time.`,
  'job-timed-out': ({ limitSeconds }) =>
    `The job took longer than ${limitSeconds} seconds before it came to this score. Send its scores in several jobs.`,
  cancelled: () =>
    'The request was cancelled, because the connection was lost or the service is shutting down. Send it again.',
  internal: ({ incident }) =>
    `This is a fault in the service, not in your score. If you report it, give the incident number ${incident}.`,
};

const isOfService = (problem: AnyProblem): problem is ServiceProblem =>
  Object.hasOwn(SENTENCES, problem.code);

/** The sentence for a person: what is wrong and what to do. */
export const anyProblemMessage = (problem: AnyProblem): string => {
  if (!isOfService(problem)) return problemMessage(problem);
  // Each sentence takes the facts of its own code, which the compiler cannot follow through the table.
  const sentence = SENTENCES[problem.code] as (problem: ServiceProblem) => string;
  return sentence(problem);
};
