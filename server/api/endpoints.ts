import { group } from 'd3-array';
import * as z from 'zod';
import { JOB_TYPES, SCORE_TYPES } from '../http/upload.ts';
import { PROBLEM_CLASSES } from '../problems.ts';
import type { AnyProblemCode } from '../service-problem.ts';
import { attemptReport } from './answers/attempt-report.ts';
import { compareOptions, compareReport } from './answers/comparison.ts';
import { divideOptions, divisionReport } from './answers/division.ts';
import { fixesReport } from './answers/fixes.ts';
import { glissandoOptions, glissandoReport } from './answers/glissandi.ts';
import { anyAnnotateReport, anyPlanReport } from './answers/lever-report.ts';
import { proofReport } from './answers/proof-report.ts';
import { health, jobOptions, jobReport, readiness } from './answers/service-answers.ts';
import { settingAtBarOptions, settingOptions, settingReport } from './answers/settings.ts';
import { PAGE_EVENTS } from './answers/told-pages.ts';
import { tunesOptions, tunesReport } from './answers/tune-table.ts';
import { describeHandouts, handoutOptions } from './requests/handouts.ts';
import { instrumentList } from './requests/instruments.ts';
import { annotateOptions, fixesOptions, markOptions, planOptions, proofOptions } from './requests/options.ts';

/** What a body holds: JSON of a schema, text, or bytes. */
export type Content = z.ZodType | 'text' | 'bytes' | Events;

/** Server-sent events: the data of each by its name. */
export interface Events {
  readonly events: Readonly<Record<string, z.ZodType>>;
}

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
  'choose-tune',
  'unknown-tune',
  'unknown-movement',
  'bad-tune',
  'no-music',
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
  description: 'Your copy is still right: its ETag was sent as If-None-Match.',
  content: {},
};

const ONE_SCORE =
  'Send the score as the body or as the one file of a form, and options in the query or as JSON in the part “options” of the form. Nothing is stored. The same request always gives the same answer, so a client that sends the ETag as If-None-Match gets 304 at once.';

export const ENDPOINTS: readonly Endpoint[] = [
  {
    id: 'annotate',
    method: 'post',
    path: '/v1/annotate',
    summary: 'Annotate a score',
    description: `Works out the pedals or levers of the harp part and prints them into it; with the option allHarps, of every harp of the score; with the option divide and no player, for both of its players. As text/event-stream the pages of one part are sent as they are ready, the first while the others are still laid out: the events progress and page, and a last one, end, or problem where something went wrong after the first; who closes the connection stops the work. ${ONE_SCORE}`,
    options: annotateOptions,
    upload: SCORE_TYPES,
    answers: [
      {
        status: 200,
        description: 'The annotated part, in the format that Accept asks for.',
        content: {
          'application/pdf': 'bytes',
          'image/svg+xml': 'text',
          'image/png': 'bytes',
          'application/json': anyAnnotateReport,
          'text/event-stream': { events: PAGE_EVENTS },
          'application/vnd.recordare.musicxml+xml': 'bytes',
          'application/vnd.recordare.musicxml': 'bytes',
          'application/mei+xml': 'bytes',
          'application/zip': 'bytes',
        },
        headers: {
          'Content-Disposition': 'A file name made from the title of the score.',
          'Tringle-Page-Count': 'The number of pages, if pages were drawn.',
          Link: 'For one page as SVG or PNG: the first, previous, next and last page.',
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
    description: `The opening setting or tuning, every change with its reasons, and the findings, without drawing pages. ${ONE_SCORE}`,
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
    description: `Follows only the markings in the file and reports what would go wrong for the player, and the fewest edits that put it right; as data, as pages on which each fault is numbered and each edit stands beside it, or as the file with these edits made. ${ONE_SCORE}`,
    options: proofOptions,
    upload: SCORE_TYPES,
    answers: [
      {
        status: 200,
        description:
          'The findings, in the format that Accept asks for: a report, the pages of the part with its faults and edits, or the corrected file in the format in which it came, which the option repair asks for too.',
        content: {
          'application/json': proofReport,
          'application/pdf': 'bytes',
          'image/svg+xml': 'text',
          'application/vnd.recordare.musicxml+xml': 'bytes',
          'application/vnd.recordare.musicxml': 'bytes',
          'application/mei+xml': 'bytes',
        },
        headers: {
          'Content-Disposition': 'For pages and the corrected file, a name made from the title of the score.',
          'Tringle-Page-Count': 'The number of pages, if pages were drawn.',
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
    id: 'mark',
    method: 'post',
    path: '/v1/mark',
    summary: 'Mark a pupil’s attempt at the pedals of a score',
    description: `Compares the pedal markings that a pupil has written into a score with the notes and the plan: what is right, what is right but has a better place and why, what is wrong and what sounds instead, what is missing; as data, or as pages with a sign at each. ${ONE_SCORE}`,
    options: markOptions,
    upload: SCORE_TYPES,
    answers: [
      {
        status: 200,
        description: 'The marked attempt, in the format that Accept asks for.',
        content: {
          'application/json': attemptReport,
          'application/pdf': 'bytes',
          'image/svg+xml': 'text',
        },
        headers: {
          'Content-Disposition': 'For pages a name made from the title of the score.',
          'Tringle-Page-Count': 'The number of pages, if pages were drawn.',
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
    id: 'compare',
    method: 'post',
    path: '/v1/compare',
    summary: 'Compare pedal harp and lever harp for a score',
    description: `How playable and how hard the part is on a pedal harp and on a lever harp, which other keys suit the lever harp better, and how it goes on the pedal harp in other keys. ${ONE_SCORE}`,
    options: compareOptions,
    upload: SCORE_TYPES,
    answers: [json(compareReport, 'The comparison.'), KNOWN],
    problems: [...READING, 'not-acceptable', ...UPLOADING, ...OPTIONS, ...WORKING, ...GUARDED],
    guarded: true,
  },
  {
    id: 'tunes',
    method: 'post',
    path: '/v1/tunes',
    summary: 'List what each tune of a tune book asks of the levers',
    description: `Tuning, strings to retune, levers up, lever changes and difficulty of every tune, as data, as CSV or as sheets to print. ${ONE_SCORE}`,
    options: tunesOptions,
    upload: SCORE_TYPES,
    answers: [
      {
        status: 200,
        description: 'The table, in the format that Accept asks for.',
        content: { 'application/json': tunesReport, 'text/csv': 'text', 'application/pdf': 'bytes' },
        headers: {
          'Content-Disposition': 'A file name, for CSV and PDF.',
          'Tringle-Page-Count': 'The number of pages of a PDF.',
        },
      },
      KNOWN,
    ],
    problems: [...READING, 'not-acceptable', ...UPLOADING, ...OPTIONS, ...WORKING, ...GUARDED],
    guarded: true,
  },
  {
    id: 'divide',
    method: 'post',
    path: '/v1/divide',
    summary: 'Divide a part between two players',
    description: `Divides a part that is too much for one harp, or that is written for two on one pair of staves: what the second harp must play at the least, who plays which notes, and the plan of each; or an annotated part for each and the score of both. Jobs divide too, with the option divide. ${ONE_SCORE}`,
    options: divideOptions,
    upload: SCORE_TYPES,
    answers: [
      {
        status: 200,
        description:
          'The division as data, or the parts of both players and their score as PDF in an archive.',
        content: { 'application/json': divisionReport, 'application/zip': 'bytes' },
        headers: { 'Content-Disposition': 'A file name made from the title of the score, for the archive.' },
      },
      KNOWN,
    ],
    problems: [
      ...READING,
      'layout-failed',
      'not-acceptable',
      ...UPLOADING,
      ...OPTIONS,
      ...WORKING,
      ...GUARDED,
    ],
    guarded: true,
  },
  {
    id: 'fixes',
    method: 'post',
    path: '/v1/fixes',
    summary: 'Find the smallest fixes for what cannot be played',
    description: `For every place that a pedal harp cannot play the fixes, the smallest first, each planned with: the place is then playable, and no other has become unplayable. And up to which tempo the whole part is playable. ${ONE_SCORE}`,
    options: fixesOptions,
    upload: SCORE_TYPES,
    answers: [json(fixesReport, 'The fixes.'), KNOWN],
    problems: [...READING, 'not-acceptable', ...UPLOADING, ...OPTIONS, ...WORKING, ...GUARDED],
    guarded: true,
  },
  {
    id: 'glissandi',
    method: 'get',
    path: '/v1/glissandi',
    summary: 'Find settings for a glissando',
    description:
      'All pedal settings that give a chord, a scale or a list of notes. Those with the fewest moves from the previous setting come first.',
    options: glissandoOptions,
    upload: null,
    answers: [json(glissandoReport, 'The settings.'), KNOWN],
    problems: ['not-acceptable', ...OPTIONS, ...WORKING, ...GUARDED],
    guarded: true,
  },
  {
    id: 'setting',
    method: 'get',
    path: '/v1/settings',
    summary: 'See what a setting of the pedals holds',
    description:
      'The scales, chords and doubled strings of a setting, and what each single move of a pedal adds and takes. With the option to, the shortest way to another setting; with the option sound, the nearest settings for a sound.',
    options: settingOptions,
    upload: null,
    answers: [json(settingReport, 'What the setting holds.'), KNOWN],
    problems: ['not-acceptable', ...OPTIONS, ...WORKING, ...GUARDED],
    guarded: true,
  },
  {
    id: 'setting-at-bar',
    method: 'post',
    path: '/v1/settings',
    summary: 'See what the pedals hold at a bar of a score',
    description: `The same of the setting with which the first notes of a bar are played, by the plan of the score. ${ONE_SCORE}`,
    options: settingAtBarOptions,
    upload: SCORE_TYPES,
    answers: [json(settingReport, 'What the setting holds.'), KNOWN],
    problems: [...READING, 'not-acceptable', ...UPLOADING, ...OPTIONS, ...WORKING, ...GUARDED],
    guarded: true,
  },
  {
    id: 'handout',
    method: 'get',
    path: '/v1/handouts/{name}',
    summary: 'Print a wall chart',
    description: `Wall charts that belong to no score. The names are ${describeHandouts().join('; ')}.`,
    options: handoutOptions,
    upload: null,
    answers: [
      {
        status: 200,
        description: 'The chart, in the format that Accept asks for.',
        content: { 'application/pdf': 'bytes', 'image/svg+xml': 'text' },
        headers: {
          'Content-Disposition': 'A file name.',
          'Tringle-Page-Count': 'The number of pages.',
          Link: 'For one page as SVG: the first, previous, next and last page.',
        },
      },
      KNOWN,
    ],
    problems: ['not-acceptable', 'page-out-of-range', 'unsupported', ...OPTIONS, ...WORKING, ...GUARDED],
    guarded: true,
  },
  {
    id: 'instruments',
    method: 'get',
    path: '/v1/instruments',
    summary: 'List the instruments',
    description: 'The harps that the option instrument knows by name.',
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
    summary: 'Start a job',
    description:
      'Send a score, a tune book or a ZIP archive of either, and fetch the results later. Every tune of a book is a score of its own, unless the option tune names one. Follow the progress at the events address. The job says how long its results are kept.',
    options: jobOptions,
    upload: JOB_TYPES,
    answers: [json(jobReport, 'The job has been accepted; its address is in Location.', 202)],
    problems: ['not-acceptable', ...UPLOADING, ...OPTIONS, 'busy', 'cancelled', 'storage-full', ...GUARDED],
    guarded: true,
  },
  {
    id: 'job',
    method: 'get',
    path: '/v1/jobs/{id}',
    summary: 'See the progress of a job',
    description: 'Each score with its stage, its number of bars, and the problem if it failed.',
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
    summary: 'Follow a job',
    description:
      'Server-sent events: progress, with the job as data, whenever it changes; finally end, or gone if the job was cancelled.',
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
      'For one score, its file or its problem. For several, a ZIP archive with the same folders as the scores; the job says which result belongs to which score, and problems.json lists the failures.',
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
    description: 'Stops the job and deletes its scores and results.',
    options: null,
    upload: null,
    answers: [{ status: 204, description: 'The job is gone.', content: {} }],
    problems: ['job-not-found', ...GUARDED],
    guarded: true,
  },
  {
    id: 'health',
    method: 'get',
    path: '/healthz',
    summary: 'Check that the service is running',
    description: 'Answers as long as the process is alive.',
    options: null,
    upload: null,
    answers: [json(health, 'It is running.')],
    problems: [],
    guarded: false,
  },
  {
    id: 'readiness',
    method: 'get',
    path: '/readyz',
    summary: 'Check that the service accepts requests',
    description: 'It accepts none while it starts or stops, or when it cannot reach its queue.',
    options: null,
    upload: null,
    answers: [json(readiness, 'It accepts requests.'), json(readiness, 'It does not.', 503)],
    problems: [],
    guarded: false,
  },
  {
    id: 'metrics',
    method: 'get',
    path: '/metrics',
    summary: 'Metrics',
    description: 'In the format of Prometheus.',
    options: null,
    upload: null,
    answers: [{ status: 200, description: 'The metrics.', content: { 'text/plain': 'text' } }],
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
    summary: 'This description as a page',
    description: 'As one HTML page to read.',
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
