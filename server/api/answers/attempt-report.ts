import * as z from 'zod';
import { VERDICTS } from '../../../engine/index.ts';
import { barIndex, barName, barNumber, beat, letter, positionName, scoreTime } from '../score-schemas.ts';
import { lever, leverNote } from './proof-report.ts';
import { remark } from './report.ts';

const place = { at: scoreTime, bar: barNumber, barName, barIndex, beat };

const stated = z
  .array(z.union([z.object({ pedal: letter, position: positionName }), z.object({ lever, note: leverNote })]))
  .readonly();

const judgedChange = z
  .object({
    kind: z.enum(['opening', 'change']).meta({
      description:
        'The opening setting as a whole (of a lever harp the levers before the start), or one change of one pedal or lever.',
    }),
    ...place,
    stated: stated.meta({
      description:
        'What was written, or for a missing one what is to be written: pedals, or the strings of which one name tells; of the opening of a lever harp the levers that are up.',
    }),
    verdict: z.enum(VERDICTS),
    marking: z.int().nullable().meta({
      description:
        'Index of the marking, counting all markings of the file from 0, for a lever harp all words that tell of levers; null for a missing one.',
    }),
    sounds: z
      .array(
        z.object({
          ...place,
          note: z.string(),
          instead: z.string().nullable().meta({
            description: 'What sounds; null if nothing says where the pedal stands.',
          }),
        }),
      )
      .readonly()
      .meta({ description: 'Of wrong and missing changes: the first notes that sound otherwise.' }),
    write: stated.nullable().meta({ description: 'What to write instead.' }),
    moveTo: z.object(place).nullable().meta({ description: 'Where it belongs, or had better stand.' }),
    why: z
      .enum(['bends', 'late', 'early', 'busy', 'stands', 'unasked', 'twice', 'undoes', 'no-time'])
      .nullable()
      .meta({
        description:
          'Why another place is better (bends: a string still rings; late; early; busy: both hands play), why it is needless (stands: so already; unasked: no note asks for it before the next change; twice: written there already; undoes: it only takes back one that is wrong or needless), or that the foot has no time, or no hand is free.',
      }),
    comment: z.string().meta({ description: 'All of it in words, in the language of the option.' }),
  })
  .meta({ id: 'JudgedChange' });

export const attemptReport = z
  .object({
    title: z.string(),
    harp: z.enum(['pedal', 'lever']),
    part: z.object({ ids: z.array(z.string()).readonly(), name: z.string() }),
    points: z.object({ given: z.int(), most: z.int() }).meta({
      description: 'Two for what is right, one for what has a better place; what is needless does not count.',
    }),
    counts: z.record(z.enum(VERDICTS), z.int()),
    changes: z.array(judgedChange).readonly(),
    unread: z
      .array(z.object({ text: z.string(), ...place, comment: z.string() }))
      .readonly()
      .meta({ description: 'Words that seem to be markings and could not be read as any.' }),
    remarks: z.array(remark).readonly(),
    pages: z.array(z.string()).readonly().meta({
      description: 'The marked pages as SVG documents; empty if they were not asked for.',
    }),
  })
  .meta({ id: 'AttemptReport', description: 'A pupil’s markings, judged by the notes and by the plan.' });

export type AttemptReport = z.infer<typeof attemptReport>;
export type ReportedChange = z.infer<typeof judgedChange>;
