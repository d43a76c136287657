import { group } from 'd3-array';
import { z } from 'zod';
import { PROBLEM_CLASSES } from '../problems.ts';
import type { AnyProblemCode } from '../service-problem.ts';
import { JOB_TYPES, SCORE_TYPES } from '../upload.ts';
import { health, jobOptions, jobReport, readiness } from './answers.ts';
import { compareOptions, compareReport } from './comparison.ts';
import { glissandoOptions, glissandoReport } from './glissandi.ts';
import { instrumentList } from './instruments.ts';
import { anyAnnotateReport, anyPlanReport } from './lever-report.ts';
import { annotateOptions, planOptions, proofOptions } from './options.ts';
import { proofReport } from './proof-report.ts';

/** What a body holds: JSON of a schema, text, or bytes. */
export type Content = z.ZodType | 'text' | 'bytes';

export interface EndpointAnswer {
  readonly status: number;
  readonly description: string;
  /** By media type. */
  readonly content: Readonly<Record<string, Content>>;
  /** What headers of its own tell, by name. */
  readonly headers?: Readonly<Record<string, string>>;
}

/** One thing that can be asked of the service. */
export interface Endpoint {
  readonly id: string;
  readonly method: 'get' | 'post' | 'delete';
  /** Parameters of the path stand in braces. */
  readonly path: string;
  readonly summary: string;
  readonly description: string;
  readonly options: z.ZodObject | null;
  /** Media types of the body, a form apart; null where there is none. */
  readonly upload: readonly string[] | null;
  readonly answers: readonly EndpointAnswer[];
  readonly problems: readonly AnyProblemCode[];
  /** Whether it asks for a key, where the service has keys. */
  readonly guarded: boolean;
}

const READING: readonly AnyProblemCode[] = [
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
];

const UPLOADING: readonly AnyProblemCode[] = [
  'unsupported-media-type',
  'unsupported-content-coding',
  'payload-too-large',
  'bad-multipart',
];

const OPTIONS: readonly AnyProblemCode[] = ['unknown-option', 'bad-option', 'missing-option'];

const WORKING: readonly AnyProblemCode[] = ['busy', 'timed-out', 'cancelled'];

const GUARDED: readonly AnyProblemCode[] = ['unauthorized', 'too-many-requests', 'foreign-origin'];

/** Of any request, whatever it asks for; the first two befall what is no request to an endpoint at all. */
export const GENERAL_PROBLEMS: readonly AnyProblemCode[] = [
  'not-found',
  'bad-request',
  'method-not-allowed',
  'request-timeout',
  'expectation-failed',
  'internal',
];

const json = (schema: z.ZodType, description: string, status = 200): EndpointAnswer => ({
  status,
  description,
  content: { 'application/json': schema },
});

const KNOWN: EndpointAnswer = {
  status: 304,
  description: 'The client has this answer already: its ETag was sent as If-None-Match.',
  content: {},
};

const ONE_SCORE =
  'The score is the body, or the one file of a form; options stand in the query, or as JSON in the part “options” of the form. Nothing is kept, and the same request gives the same answer: a client that sends its ETag as If-None-Match is answered 304 before any work is done.';

export const ENDPOINTS: readonly Endpoint[] = [
  {
    id: 'annotate',
    method: 'post',
    path: '/v1/annotate',
    summary: 'Annotate a score',
    description: `Works out the pedals or levers of the harp part and prints them into it. ${ONE_SCORE}`,
    options: annotateOptions,
    upload: SCORE_TYPES,
    answers: [
      {
        status: 200,
        description: 'The annotated part in the form that Accept names.',
        content: {
          'application/pdf': 'bytes',
          'image/svg+xml': 'text',
          'application/json': anyAnnotateReport,
          'application/vnd.recordare.musicxml+xml': 'bytes',
          'application/vnd.recordare.musicxml': 'bytes',
          'application/mei+xml': 'bytes',
        },
        headers: {
          'Content-Disposition': 'Names the file by the title of the score.',
          'Tringle-Page-Count': 'How many pages there are, where pages were drawn.',
          Link: 'For one page as SVG: the first, previous, next and last page.',
        },
      },
      KNOWN,
    ],
    problems: [
      ...READING,
      'layout-failed',
      'page-out-of-range',
      'not-acceptable',
      ...UPLOADING,
      ...OPTIONS,
      ...WORKING,
      ...GUARDED,
    ],
    guarded: true,
  },
  {
    id: 'plan',
    method: 'post',
    path: '/v1/plan',
    summary: 'Plan the pedals or levers of a score',
    description: `The setting or the tuning, every move and why, and the findings, without drawing anything. ${ONE_SCORE}`,
    options: planOptions,
    upload: SCORE_TYPES,
    answers: [json(anyPlanReport, 'The plan.'), KNOWN],
    problems: [...READING, 'not-acceptable', ...UPLOADING, ...OPTIONS, ...WORKING, ...GUARDED],
    guarded: true,
  },
  {
    id: 'proof',
    method: 'post',
    path: '/v1/proof',
    summary: 'Proofread the pedal markings of a score',
    description: `Plays the part by the markings in the file alone and tells what goes wrong. ${ONE_SCORE}`,
    options: proofOptions,
    upload: SCORE_TYPES,
    answers: [json(proofReport, 'What was found.'), KNOWN],
    problems: [...READING, 'not-acceptable', ...UPLOADING, ...OPTIONS, ...WORKING, ...GUARDED],
    guarded: true,
  },
  {
    id: 'compare',
    method: 'post',
    path: '/v1/compare',
    summary: 'Compare the harps for a score',
    description: `How the part goes on a pedal harp and on a lever harp, and which other keys suit the lever harp better. ${ONE_SCORE}`,
    options: compareOptions,
    upload: SCORE_TYPES,
    answers: [json(compareReport, 'The verdicts.'), KNOWN],
    problems: [...READING, 'not-acceptable', ...UPLOADING, ...OPTIONS, ...WORKING, ...GUARDED],
    guarded: true,
  },
  {
    id: 'glissandi',
    method: 'get',
    path: '/v1/glissandi',
    summary: 'Find settings for a glissando',
    description:
      'All settings that sound a chord, a scale or notes, the nearest to the setting before first.',
    options: glissandoOptions,
    upload: null,
    answers: [json(glissandoReport, 'The settings.'), KNOWN],
    problems: ['not-acceptable', ...OPTIONS, ...WORKING, ...GUARDED],
    guarded: true,
  },
  {
    id: 'instruments',
    method: 'get',
    path: '/v1/instruments',
    summary: 'List the instruments',
    description: 'The harps that are known by name.',
    options: null,
    upload: null,
    answers: [json(instrumentList, 'The instruments.'), KNOWN],
    problems: GUARDED,
    guarded: true,
  },
  {
    id: 'submit-job',
    method: 'post',
    path: '/v1/jobs',
    summary: 'Begin a long job',
    description:
      'Takes a score, or a ZIP archive of scores, and works on it while the client does something else. Progress is told at the events address; results are kept for a time that the job states.',
    options: jobOptions,
    upload: JOB_TYPES,
    answers: [json(jobReport, 'The job has been taken; Location is its address.', 202)],
    problems: ['not-acceptable', ...UPLOADING, ...OPTIONS, 'busy', 'cancelled', 'storage-full', ...GUARDED],
    guarded: true,
  },
  {
    id: 'job',
    method: 'get',
    path: '/v1/jobs/{id}',
    summary: 'See how far a job is',
    description: 'Each score with its stage, its bars, and its problem if it failed.',
    options: null,
    upload: null,
    answers: [json(jobReport, 'The job.')],
    problems: ['job-not-found', ...GUARDED],
    guarded: true,
  },
  {
    id: 'job-events',
    method: 'get',
    path: '/v1/jobs/{id}/events',
    summary: 'Watch a job',
    description:
      'Server-sent events: progress with the job as data, whenever it changes; a last one named end, or gone where the job was cancelled.',
    options: null,
    upload: null,
    answers: [{ status: 200, description: 'The events.', content: { 'text/event-stream': 'text' } }],
    problems: ['job-not-found', ...GUARDED],
    guarded: true,
  },
  {
    id: 'job-result',
    method: 'get',
    path: '/v1/jobs/{id}/result',
    summary: 'Fetch the result of a job',
    description:
      'Of one score its file, or its problem; of several a ZIP archive with the folders that the scores came in, where the job says which result is whose, and problems.json lists what failed.',
    options: null,
    upload: null,
    answers: [
      {
        status: 200,
        description: 'The result.',
        content: {
          'application/pdf': 'bytes',
          'application/json': anyAnnotateReport,
          'application/vnd.recordare.musicxml+xml': 'bytes',
          'application/vnd.recordare.musicxml': 'bytes',
          'application/mei+xml': 'bytes',
          'application/zip': 'bytes',
        },
      },
      KNOWN,
    ],
    problems: [
      'job-not-found',
      'job-without-result',
      'not-acceptable',
      'too-many-scores',
      'storage-full',
      'timed-out',
      'job-timed-out',
      'layout-failed',
      ...READING,
      ...GUARDED,
    ],
    guarded: true,
  },
  {
    id: 'cancel-job',
    method: 'delete',
    path: '/v1/jobs/{id}',
    summary: 'Cancel a job',
    description: 'Gives the work up, and throws its scores and results away.',
    options: null,
    upload: null,
    answers: [{ status: 204, description: 'There is no such job any more.', content: {} }],
    problems: ['job-not-found', ...GUARDED],
    guarded: true,
  },
  {
    id: 'health',
    method: 'get',
    path: '/healthz',
    summary: 'See whether the service lives',
    description: 'Answers as long as the process can answer at all.',
    options: null,
    upload: null,
    answers: [json(health, 'It lives.')],
    problems: [],
    guarded: false,
  },
  {
    id: 'readiness',
    method: 'get',
    path: '/readyz',
    summary: 'See whether the service takes requests',
    description: 'Not while it starts or stops, or cannot reach its queue.',
    options: null,
    upload: null,
    answers: [json(readiness, 'It takes requests.'), json(readiness, 'It does not.', 503)],
    problems: [],
    guarded: false,
  },
  {
    id: 'metrics',
    method: 'get',
    path: '/metrics',
    summary: 'Measurements',
    description: 'For Prometheus.',
    options: null,
    upload: null,
    answers: [{ status: 200, description: 'The measurements.', content: { 'text/plain': 'text' } }],
    problems: [],
    guarded: false,
  },
  {
    id: 'openapi',
    method: 'get',
    path: '/openapi.json',
    summary: 'This description',
    description: 'As an OpenAPI document.',
    options: null,
    upload: null,
    answers: [json(z.looseObject({ openapi: z.string() }), 'The description.'), KNOWN],
    problems: [],
    guarded: false,
  },
  {
    id: 'docs',
    method: 'get',
    path: '/docs',
    summary: 'This description to read',
    description: 'As a page that loads nothing else.',
    options: null,
    upload: null,
    answers: [{ status: 200, description: 'The page.', content: { 'text/html': 'text' } }, KNOWN],
    problems: [],
    guarded: false,
  },
];

/** The statuses with which an endpoint tells its problems, and which these are. */
export const problemsByStatus = (endpoint: Endpoint): ReadonlyMap<number, readonly AnyProblemCode[]> =>
  group([...endpoint.problems, ...GENERAL_PROBLEMS], (code) => PROBLEM_CLASSES[code].status);
