import { z } from 'zod';
import { JOB_OUTPUTS } from '../jobs/job.ts';
import { STAGES } from '../work/job.ts';
import { annotateOptions } from './options.ts';

/** Answers of the service about itself and about jobs, and what every problem has. */

export const problem = z
  .looseObject({
    type: z.string().meta({ description: 'Stable: programs tell problems apart by it.' }),
    title: z.string(),
    status: z.int(),
    detail: z.string(),
  })
  .meta({ id: 'Problem', description: 'What went wrong (RFC 9457), with its facts as further members.' });

export const jobOptions = annotateOptions
  .omit({ page: true, pages: true })
  .extend({
    output: z.enum(JOB_OUTPUTS).exactOptional().meta({
      description:
        'What each score becomes: its pages as a PDF (if not given), a report in JSON with its pages, or the file itself with markings in it.',
    }),
  })
  .meta({ id: 'JobOptions' });

const moment = z.string().meta({ format: 'date-time' });

export const jobReport = z
  .object({
    id: z.string(),
    state: z.enum(['waiting', 'working', 'done', 'failed']).meta({
      description: 'done: every score has been worked on, though some may have failed.',
    }),
    createdAt: moment,
    expiresAt: moment.nullable().meta({ description: 'When its results are thrown away.' }),
    files: z.array(
      z.object({
        name: z.string(),
        state: z.enum(['waiting', 'working', 'done', 'failed', 'passed-over']).meta({
          description: 'passed-over: it came with the scores, and is none by its name.',
        }),
        stage: z.enum(STAGES).nullable(),
        bars: z.int().nullable().meta({ description: 'Bars of the score; null until it is read.' }),
        problem: problem.nullable().meta({ description: 'Why it failed.' }),
        result: z
          .string()
          .nullable()
          .meta({
            description:
              'Where its result stands in the archive of results; null where it has none, or where the job is of one score, whose result is sent by itself.',
            examples: ['movement-1/harp.pdf'],
          }),
      }),
    ),
    links: z.object({ self: z.string(), events: z.string(), result: z.string() }),
  })
  .meta({ id: 'Job', description: 'How far a job is.' });

export type JobReport = z.infer<typeof jobReport>;

const poolState = z.object({
  threads: z.int(),
  working: z.int(),
  waiting: z.int(),
  queue: z.int(),
});

export const health = z
  .object({
    status: z.literal('ok'),
    version: z.string(),
    pool: poolState.meta({ description: 'Threads that draw.' }),
  })
  .meta({ id: 'Health', description: 'The process is alive.' });

export const readiness = z
  .object({ ready: z.boolean(), reasons: z.array(z.string()) })
  .meta({ id: 'Readiness', description: 'Whether requests are taken, and if not, why.' });
