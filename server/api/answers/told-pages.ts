import * as z from 'zod';
import { STAGES } from '../../threads/job.ts';
import { anyAnnotateReport } from './lever-report.ts';
import { problem } from './service-answers.ts';

/** The data of the events that tell pages as they are ready. */

export const pagesProgress = z
  .object({
    stage: z.enum(STAGES),
    bars: z.int().nullable().meta({ description: 'Bars of the score.' }),
  })
  .meta({ id: 'PagesProgress', description: 'The event progress: what is done now.' });

export const readyPage = z
  .object({
    number: z.int().meta({ description: 'The number of the page, from 1.' }),
    of: z.int().meta({ description: 'How many pages there will be, as far as that is known.' }),
    svg: z.string().meta({ description: 'The page, an SVG document without its letters.' }),
  })
  .meta({
    id: 'ReadyPage',
    description:
      'The event page: a page that is ready. What stands on it can depend on later pages: one that comes to look otherwise is sent again, and the last of each number counts.',
  });

export const pagesReport = z
  .object({
    report: anyAnnotateReport.meta({
      description: 'The report as JSON has it; pageCount says how many pages there are, and pages is empty.',
    }),
    letters: z.string().meta({
      description:
        'The style element with the letters that the pages show: put before the end of each page, it makes the page look the same wherever it is opened.',
    }),
  })
  .meta({ id: 'PagesReport', description: 'The event end: all pages were sent.' });

export type PagesReport = z.infer<typeof pagesReport>;

/** The events by their names. */
export const PAGE_EVENTS = { progress: pagesProgress, page: readyPage, end: pagesReport, problem } as const;
