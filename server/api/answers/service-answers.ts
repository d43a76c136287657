import * as z from 'zod';
import { JOB_OUTPUTS } from '../../jobs/job.ts';
import { STAGES } from '../../threads/job.ts';
import { setTitleShape, tunesShape } from '../requests/class-set.ts';
import { annotateOptions } from '../requests/options.ts';

/** Answers of the service about itself and about jobs, and what every problem has. */

export const problem = z
  .looseObject({
    type: z
      .string()
      .meta({ description: 'Identifies the kind of problem. It never changes, so programs can rely on it.' }),
    title: z.string(),
    status: z.int(),
    detail: z.string(),
  })
  .meta({ id: 'Problem', description: 'What went wrong (RFC 9457), with the details as further members.' });

export const jobOptions = annotateOptions
  .omit({ page: true, pageOfBar: true, pages: true })
  .extend({
    ...tunesShape,
    ...setTitleShape,
    output: z.enum(JOB_OUTPUTS).exactOptional().meta({
      description:
        'The kind of result for each score: its pages as a PDF (if not given), a report in JSON with its pages, or the file itself with markings in it. class-set: all scores as one PDF with contents, a table of difficulty, what to set between pieces, and page numbers through; what is refused is named in it.',
    }),
  })
  .meta({ id: 'JobOptions' });

const moment = z.string().meta({ format: 'date-time' });

export const jobReport = z
  .object({
    id: z.string(),
    state: z.enum(['waiting', 'working', 'done', 'failed']).meta({
      description: 'done: every score has been processed, though some may have failed.',
    }),
    createdAt: moment,
    expiresAt: moment.nullable().meta({ description: 'When its results are deleted.' }),
    files: z.array(
      z.object({
        name: z.string(),
        tune: z
          .object({ number: z.string(), title: z.string() })
          .nullable()
          .meta({ description: 'The tune of a tune book; null for other scores.' }),
        state: z.enum(['waiting', 'working', 'done', 'failed', 'skipped']).meta({
          description: 'skipped: its name does not end like the name of a score, so it was ignored.',
        }),
        stage: z.enum(STAGES).nullable(),
        bars: z.int().nullable().meta({ description: 'Bars of the score; null until it is read.' }),
        problem: problem.nullable().meta({ description: 'Why it failed.' }),
        result: z
          .string()
          .nullable()
          .meta({
            description:
              'The path of its result in the ZIP archive of results, a folder where all its harps were wanted; null if it has none, or if the job has only one score, whose result is sent by itself.',
            examples: ['movement-1/harp.pdf'],
          }),
      }),
    ),
    links: z.object({ self: z.string(), events: z.string(), result: z.string() }),
  })
  .meta({ id: 'Job', description: 'The progress of a job.' });

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
    pool: poolState.meta({ description: 'The threads that process scores.' }),
  })
  .meta({ id: 'Health', description: 'The service is running.' });

export const readiness = z
  .object({ ready: z.boolean(), reasons: z.array(z.string()) })
  .meta({ id: 'Readiness', description: 'Whether the service accepts requests, and if not, why.' });
