import * as z from 'zod';
import { COMPARE_CATALOGUE, GRADES } from '../../../engine/index.ts';
import { shapeOf } from '../requests/option-schemas.ts';
import { footRestShape, instrumentShape, leverShape, partShape } from '../requests/options.ts';
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
    description:
      'The option instrument chooses the pedal harp or the lever harp to compare; for the other kind the default harp is taken.',
  });

export type CompareChoice = z.infer<typeof compareOptions>;

const verdictShape = {
  harp: z.string(),
  playable: z
    .boolean()
    .meta({ description: 'Whether the part is playable: no finding has the severity stop.' }),
  stops: z.int().meta({ description: 'How many places are not playable.' }),
  warnings: z.int().meta({ description: 'How many places have a warning.' }),
  changes: z.int().meta({ description: 'How many pedal moves or lever changes there are during the piece.' }),
  grade: z.enum(GRADES).meta({ description: 'How hard it is.' }),
};

const pedalVerdict = z
  .object(verdictShape)
  .meta({ id: 'PedalVerdict', description: 'How playable the part is on a pedal harp.' });

const leverVerdict = z
  .object({
    ...verdictShape,
    tuning: z.string().meta({ examples: ['E♭ major'] }),
    retuned: z.int().meta({ description: 'How many strings to retune before the piece.' }),
    leversUp: z.int(),
  })
  .meta({ id: 'LeverVerdict', description: 'How playable the part is on a lever harp.' });

const keyName = z.string().meta({
  description:
    'The key in words; of both keys with the signature where the last bass note does not tell the mode.',
  examples: ['C minor'],
});

const keyShape = {
  keyName,
  semitones: z.int().meta({ description: 'Positive for up, negative for down.' }),
  keyFifths: z.int().meta({
    description:
      'The key signature after transposing: a positive number of sharps or a negative number of flats.',
  }),
};

const otherWay = z
  .object({
    semitones: z.int(),
    isAsGood: z.boolean().meta({ description: 'Whether the part goes as well there.' }),
  })
  .nullable()
  .meta({ description: 'The same key the other way, an octave away, where that was tried too.' });

export const compareReport = z
  .object({
    ...scoreShape,
    keyName,
    pedal: pedalVerdict,
    lever: leverVerdict,
    transpositions: z
      .array(z.object({ ...keyShape, otherWay, pedal: pedalVerdict, lever: leverVerdict }))
      .readonly()
      .meta({ description: 'Keys that suit the lever harp better than the written one, the best first.' }),
    pedalKeys: z
      .array(z.object({ ...keyShape, otherWay, pedal: pedalVerdict }))
      .readonly()
      .meta({
        description:
          'All keys that were tried for the pedal harp, each once, the written one (0 semitones) among them, the best first: by the places that are not playable, then by the moves, then by the flats, in which strings ring fuller.',
      }),
    considered: z
      .array(z.object({ ...keyShape, missingNotes: z.int(), changes: z.int() }))
      .readonly()
      .meta({
        description:
          'All keys that were considered, the most promising first, each with the least number of missing notes and lever changes that it needs.',
      }),
    remarks: z.array(remark).readonly(),
  })
  .meta({ id: 'CompareReport', description: 'One part compared on both kinds of harp.' });

export type CompareReport = z.infer<typeof compareReport>;
