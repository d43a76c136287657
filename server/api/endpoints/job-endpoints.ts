import { JOB_TYPES } from '../../http/upload.ts';
import { anyAnnotateReport } from '../answers/lever-report.ts';
import { jobOptions, jobReport } from '../answers/service-answers.ts';
import { type Endpoint, json, KNOWN } from './endpoint.ts';
import { GUARDED, OPTIONS, READING, UPLOADING } from './endpoint-problems.ts';

/** Jobs: work that is fetched later. */
export const JOB_ENDPOINTS: readonly Endpoint[] = [
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
];
