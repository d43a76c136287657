import { group } from 'd3-array';
import { PROBLEM_CLASSES } from '../../problems.ts';
import type { AnyProblemCode } from '../../service-problem.ts';
import type { Endpoint } from './endpoint.ts';

/** A score cannot be read. */
export const READING: readonly AnyProblemCode[] = [
  'empty-input',
  'unknown-encoding',
  'bad-characters',
  'malformed-xml',
  'archive-corrupt',
  'not-a-score',
  'entity-refused',
  'archive-without-score',
  'limit-exceeded',
  'bad-value',
  'unsupported',
  'no-parts',
  'harp-not-found',
  'unknown-part',
  'no-notes',
  'choose-tune',
  'unknown-tune',
  'unknown-movement',
  'bad-tune',
  'no-music',
];

/** A body cannot be taken. */
export const UPLOADING: readonly AnyProblemCode[] = [
  'unsupported-media-type',
  'unsupported-content-coding',
  'payload-too-large',
  'bad-multipart',
];

/** An option is wrong. */
export const OPTIONS: readonly AnyProblemCode[] = ['unknown-option', 'bad-option', 'missing-option'];

/** Work does not come to its end. */
export const WORKING: readonly AnyProblemCode[] = ['busy', 'timed-out', 'cancelled'];

/** Whoever asks may not. */
export const GUARDED: readonly AnyProblemCode[] = ['unauthorized', 'too-many-requests', 'foreign-origin'];

/** Of any request, whatever it asks for; the first two befall what is no request to an endpoint at all. */
export const GENERAL_PROBLEMS: readonly AnyProblemCode[] = [
  'not-found',
  'bad-request',
  'method-not-allowed',
  'request-timeout',
  'expectation-failed',
  'internal',
];

/** The statuses with which an endpoint tells its problems, and which these are. */
export const problemsByStatus = (endpoint: Endpoint): ReadonlyMap<number, readonly AnyProblemCode[]> =>
  group([...endpoint.problems, ...GENERAL_PROBLEMS], (code) => PROBLEM_CLASSES[code].status);
