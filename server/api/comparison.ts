import { z } from 'zod';
import { COMPARE_CATALOGUE } from '../../engine/compare/catalogue.ts';
import { shapeOf } from './option-schemas.ts';
import { footRestShape, instrumentShape, leverShape, partShape } from './options.ts';
import { remark, scoreShape } from './report.ts';

export const compareOptions = z
  .strictObject({
    ...partShape,
    ...instrumentShape,
    ...footRestShape,
    ...leverShape,
    ...shapeOf(COMPARE_CATALOGUE),
  })
  .meta({
    id: 'CompareOptions',
    description: 'The instrument named stands for the harps of its kind; the other kind is the usual one.',
  });

export type CompareChoice = z.infer<typeof compareOptions>;

const verdictShape = {
  harp: z.string(),
  playable: z.boolean().meta({ description: 'Nothing stops the player.' }),
  stops: z.int().meta({ description: 'Findings of severity stop.' }),
  warnings: z.int(),
  changes: z.int().meta({ description: 'Pedals moved, or levers set, during the piece.' }),
};

const pedalVerdict = z
  .object(verdictShape)
  .meta({ id: 'PedalVerdict', description: 'How the part goes on a pedal harp.' });

const leverVerdict = z
  .object({
    ...verdictShape,
    tuning: z.string().meta({ examples: ['E♭ major'] }),
    retuned: z.int().meta({ description: 'Strings to be retuned before the piece.' }),
    leversUp: z.int(),
  })
  .meta({ id: 'LeverVerdict', description: 'How the part goes on a lever harp.' });

const keyShape = {
  semitones: z.int().meta({ description: 'Up where positive.' }),
  keyFifths: z.int().meta({ description: 'The key signature then: sharps positive, flats negative.' }),
};

export const compareReport = z
  .object({
    ...scoreShape,
    pedal: pedalVerdict,
    lever: leverVerdict,
    transpositions: z
      .array(z.object({ ...keyShape, pedal: pedalVerdict, lever: leverVerdict }))
      .readonly()
      .meta({ description: 'Keys that suit the lever harp better than the written one, the best first.' }),
    considered: z
      .array(z.object({ ...keyShape, unserved: z.int(), changes: z.int() }))
      .readonly()
      .meta({
        description:
          'All keys that were considered, the most promising first: notes that no string gives and changes of levers, at least.',
      }),
    remarks: z.array(remark).readonly(),
  })
  .meta({ id: 'CompareReport', description: 'One part on both harps.' });

export type CompareReport = z.infer<typeof compareReport>;
