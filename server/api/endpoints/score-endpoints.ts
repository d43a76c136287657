import { SCORE_TYPES } from '../../http/upload.ts';
import type { AnyProblemCode } from '../../service-problem.ts';
import { attemptReport } from '../answers/attempt-report.ts';
import { compareOptions, compareReport } from '../answers/comparison.ts';
import { divideOptions, divisionReport } from '../answers/division.ts';
import { fixesReport } from '../answers/fixes.ts';
import { anyAnnotateReport, anyPlanReport } from '../answers/lever-report.ts';
import { proofReport } from '../answers/proof-report.ts';
import { settingAtBarOptions, settingReport } from '../answers/settings.ts';
import { PAGE_EVENTS } from '../answers/told-pages.ts';
import { tunesOptions, tunesReport } from '../answers/tune-table.ts';
import {
  annotateOptions,
  fixesOptions,
  markOptions,
  planOptions,
  proofOptions,
} from '../requests/options.ts';
import { type Endpoint, json, KNOWN } from './endpoint.ts';
import { GUARDED, OPTIONS, READING, UPLOADING, WORKING } from './endpoint-problems.ts';

const ONE_SCORE =
  'Send the score as the body or as the one file of a form, and options in the query or as JSON in the part “options” of the form. Nothing is stored. The same request always gives the same answer, so a client that sends the ETag as If-None-Match gets 304 at once.';

/** What drawing adds to what can go wrong: pages, of which one may be asked for, or whole files. */
const DRAWING: Readonly<Record<'pages' | 'files', readonly AnyProblemCode[]>> = {
  pages: ['layout-failed', 'page-out-of-range'],
  files: ['layout-failed'],
};

type ToldOfScore = Pick<Endpoint, 'id' | 'path' | 'summary' | 'description' | 'options' | 'answers'> & {
  /** What it draws; null for nothing. */
  readonly draws: keyof typeof DRAWING | null;
};

/** Something that is asked of one score. */
const aboutScore = ({ draws, answers, ...told }: ToldOfScore): Endpoint => ({
  ...told,
  method: 'post',
  upload: SCORE_TYPES,
  answers: [...answers, KNOWN],
  problems: [
    ...READING,
    ...(draws === null ? [] : DRAWING[draws]),
    'not-acceptable',
    ...UPLOADING,
    ...OPTIONS,
    ...WORKING,
    ...GUARDED,
  ],
  guarded: true,
});

/** What can be asked of one score. */
export const SCORE_ENDPOINTS: readonly Endpoint[] = [
  aboutScore({
    id: 'annotate',
    path: '/v1/annotate',
    summary: 'Annotate a score',
    description: `Works out the pedals or levers of the harp part and prints them into it; with the option allHarps, of every harp of the score; with the option divide and no player, for both of its players. As text/event-stream the pages of one part are sent as they are ready, the first while the others are still laid out, or first of all the one with the bar that the option pageOfBar names: the events progress and page, and a last one, end, or problem where something went wrong after the first; who closes the connection stops the work. ${ONE_SCORE}`,
    options: annotateOptions,
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
    ],
    draws: 'pages',
  }),
  aboutScore({
    id: 'plan',
    path: '/v1/plan',
    summary: 'Plan the pedals or levers of a score',
    description: `The opening setting or tuning, every change with its reasons, and the findings, without drawing pages. ${ONE_SCORE}`,
    options: planOptions,
    answers: [json(anyPlanReport, 'The plan.')],
    draws: null,
  }),
  aboutScore({
    id: 'proof',
    path: '/v1/proof',
    summary: 'Proofread the pedal or lever markings of a score',
    description: `Follows only the markings in the file and reports what would go wrong for the player, and the fewest edits that put it right; as data, as pages on which each fault is numbered and each edit stands beside it, or as the file with these edits made. ${ONE_SCORE}`,
    options: proofOptions,
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
    ],
    draws: 'pages',
  }),
  aboutScore({
    id: 'mark',
    path: '/v1/mark',
    summary: 'Mark a pupil’s attempt at the pedals or levers of a score',
    description: `Compares the pedal or lever markings that a pupil has written into a score with the notes and the plan: what is right, what is right but has a better place and why, what is wrong and what sounds instead, what is missing; as data, or as pages with a sign at each. ${ONE_SCORE}`,
    options: markOptions,
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
    ],
    draws: 'pages',
  }),
  aboutScore({
    id: 'compare',
    path: '/v1/compare',
    summary: 'Compare pedal harp and lever harp for a score',
    description: `How playable and how hard the part is on a pedal harp and on a lever harp, which other keys suit the lever harp better, and how it goes on the pedal harp in other keys. ${ONE_SCORE}`,
    options: compareOptions,
    answers: [json(compareReport, 'The comparison.')],
    draws: null,
  }),
  aboutScore({
    id: 'tunes',
    path: '/v1/tunes',
    summary: 'List what each tune of a tune book asks of the levers',
    description: `Tuning, strings to retune, levers up, lever changes and difficulty of every tune, as data, as CSV or as sheets to print. ${ONE_SCORE}`,
    options: tunesOptions,
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
    ],
    draws: null,
  }),
  aboutScore({
    id: 'divide',
    path: '/v1/divide',
    summary: 'Divide a part between two players',
    description: `Divides a part that is too much for one harp, or that is written for two on one pair of staves: what the second harp must play at the least, who plays which notes, and the plan of each; or an annotated part for each and the score of both. Jobs divide too, with the option divide. ${ONE_SCORE}`,
    options: divideOptions,
    answers: [
      {
        status: 200,
        description:
          'The division as data, or the parts of both players and their score as PDF in an archive.',
        content: { 'application/json': divisionReport, 'application/zip': 'bytes' },
        headers: { 'Content-Disposition': 'A file name made from the title of the score, for the archive.' },
      },
    ],
    draws: 'files',
  }),
  aboutScore({
    id: 'fixes',
    path: '/v1/fixes',
    summary: 'Find the smallest fixes for what cannot be played',
    description: `For every place that a pedal harp cannot play the fixes, the smallest first, each planned with: the place is then playable, and no other has become unplayable. And up to which tempo the whole part is playable. ${ONE_SCORE}`,
    options: fixesOptions,
    answers: [json(fixesReport, 'The fixes.')],
    draws: null,
  }),
  aboutScore({
    id: 'setting-at-bar',
    path: '/v1/settings',
    summary: 'See what the pedals hold at a bar of a score',
    description: `The same of the setting with which the first notes of a bar are played, by the plan of the score. ${ONE_SCORE}`,
    options: settingAtBarOptions,
    answers: [json(settingReport, 'What the setting holds.')],
    draws: null,
  }),
];
