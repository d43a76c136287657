import type { AnyProblemCode } from '../../service-problem.ts';
import { glissandoOptions, glissandoReport } from '../answers/glissandi.ts';
import { settingOptions, settingReport } from '../answers/settings.ts';
import { describeHandouts, handoutOptions } from '../requests/handouts.ts';
import { instrumentList } from '../requests/instruments.ts';
import { type Endpoint, json, KNOWN } from './endpoint.ts';
import { GUARDED, OPTIONS, WORKING } from './endpoint-problems.ts';

type ToldOfLookUp = Pick<Endpoint, 'id' | 'path' | 'summary' | 'description' | 'options' | 'answers'> & {
  /** What can go wrong beside what can with every question. */
  readonly problems?: readonly AnyProblemCode[];
};

/** Something that is looked up without a score; without options nothing is worked out for it. */
const lookUp = ({ answers, problems = [], ...told }: ToldOfLookUp): Endpoint => ({
  ...told,
  method: 'get',
  upload: null,
  answers: [...answers, KNOWN],
  problems:
    told.options === null ? GUARDED : ['not-acceptable', ...problems, ...OPTIONS, ...WORKING, ...GUARDED],
  guarded: true,
});

/** What can be looked up without a score. */
export const LOOK_UP_ENDPOINTS: readonly Endpoint[] = [
  lookUp({
    id: 'glissandi',
    path: '/v1/glissandi',
    summary: 'Find settings for a glissando',
    description:
      'All pedal settings that give a chord, a scale or a list of notes. Those with the fewest moves from the previous setting come first.',
    options: glissandoOptions,
    answers: [json(glissandoReport, 'The settings.')],
  }),
  lookUp({
    id: 'setting',
    path: '/v1/settings',
    summary: 'See what a setting of the pedals holds',
    description:
      'The scales, chords and doubled strings of a setting, and what each single move of a pedal adds and takes. With the option to, the shortest way to another setting; with the option sound, the nearest settings for a sound.',
    options: settingOptions,
    answers: [json(settingReport, 'What the setting holds.')],
  }),
  lookUp({
    id: 'handout',
    path: '/v1/handouts/{name}',
    summary: 'Print a wall chart',
    description: `Wall charts that belong to no score. The names are ${describeHandouts().join('; ')}.`,
    options: handoutOptions,
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
    ],
    problems: ['page-out-of-range', 'unsupported'],
  }),
  lookUp({
    id: 'instruments',
    path: '/v1/instruments',
    summary: 'List the instruments',
    description: 'The harps that the option instrument knows by name.',
    options: null,
    answers: [json(instrumentList, 'The instruments.')],
  }),
];
