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

/** The id of a part that may be chosen instead, where the problem is that none or the wrong one was. */
export const partToChoose = (problem: AnyProblem): string | null => {
  if (problem.code === 'unknown-part' || problem.code === 'harp-not-found')
    return problem.parts[0]?.id ?? null;
  return problem.code === 'no-notes' ? (problem.parts.find(({ notes }) => notes > 0)?.id ?? null) : null;
};

/** The sentence for a person: what is wrong and what to do. */
export const anyProblemMessage = (problem: AnyProblem): string => {
  switch (problem.code) {
    case 'not-found':
      return `There is nothing at ${problem.path}. Send a score with POST to /v1/annotate.`;
    case 'method-not-allowed':
      return `${problem.method} is not allowed here. Use ${listChoices(problem.allowed)}.`;
    case 'not-acceptable':
      return `The result is available as ${problem.offered.join(', ')}. ${
        problem.option === undefined
          ? 'Ask for one of these in Accept.'
          : `Accept must allow one of these. Choose the kind of result with the option ${problem.option}.`
      }`;
    case 'unsupported-media-type':
      return `${problem.mediaType === '' ? 'The request names no Content-Type' : `“${problem.mediaType}” is not accepted`}. Send the score as one of ${problem.accepted.join(', ')}.${problem.mediaType === 'application/zip' ? ' An archive of scores goes to /v1/jobs.' : ''}`;
    case 'unsupported-content-coding':
      return `The content coding “${problem.coding}” is not supported. Send the file as it is; a compressed MusicXML file (.mxl) needs no coding.`;
    case 'payload-too-large':
      return `The upload is larger than ${megabytes(problem.limitBytes)}. Send the harp part without the rest of the score.`;
    case 'bad-multipart':
      return `The form cannot be used: ${problem.reason}. Send one file, with options in the query or as JSON in the part “options”.`;
    case 'bad-request':
      return `The request cannot be read: ${problem.reason}.`;
    case 'unknown-option':
      return `There is no option “${problem.option}”. ${problem.nearest === null ? `The options are ${problem.options.join(', ')}.` : `Did you mean “${problem.nearest}”?`}`;
    case 'bad-option':
      return `“${problem.value}” is not a valid value for the option ${problem.option}: ${problem.expected}.`;
    case 'missing-option':
      return `The option ${problem.option} is missing: ${problem.expected}${problem.example === null ? '' : `, such as “${problem.example}”`}.`;
    case 'page-out-of-range':
      return `There is no page ${problem.page}: the part has ${nameCount(problem.pageCount, 'page')}.`;
    case 'busy':
      return `The service is busy. Try again in ${problem.retryAfterSeconds} seconds.`;
    case 'expectation-failed':
      return `The expectation “${problem.expectation}” cannot be met. Send the request without Expect, or with 100-continue.`;
    case 'foreign-origin':
      return `A page of ${problem.origin} may not use this service. Open the service's own page, by localhost or its IP address; behind a proxy set TRUSTED_PROXIES.`;
    case 'unauthorized':
      return 'This service needs a key. Send it as Authorization: Bearer KEY.';
    case 'too-many-requests':
      return `You have sent more than ${problem.limitPerMinute} requests in a minute. Try again in ${problem.retryAfterSeconds} seconds.`;
    case 'request-timeout':
      return `The request did not arrive within ${problem.limitSeconds} seconds.`;
    case 'job-not-found':
      return 'There is no such job. It may have been cancelled, or its results are no longer kept.';
    case 'job-without-result':
      return problem.state === 'failed'
        ? 'The job failed and has no result. Send it again.'
        : `The job is ${problem.state}: there is no result yet.`;
    case 'too-many-scores':
      return `There are ${problem.found} scores or tunes; one job takes at most ${problem.limit}.`;
    case 'storage-full':
      return 'The service has no space to store the job. Try again later.';
    case 'timed-out':
      return `The score took longer than ${problem.limitSeconds} seconds. Send the harp part alone, or one movement at a time.`;
    case 'job-timed-out':
      return `The job took longer than ${problem.limitSeconds} seconds before it came to this score. Send its scores in several jobs.`;
    case 'cancelled':
      return 'The request was cancelled, because the connection was lost or the service is shutting down.';
    case 'internal':
      return `This is a fault in the service, not in your score. If you report it, give the incident number ${problem.incident}.`;
    default:
      return problemMessage(problem);
  }
};
