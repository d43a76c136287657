import * as z from 'zod';
import {
  DECISION_LIMITS,
  LEVER_CATALOGUE,
  PEDAL_CATALOGUE,
  SHARING_CATALOGUE,
} from '../../../engine/index.ts';
import { ENGRAVING_CATALOGUE } from '../../../render/pure.ts';
import { barIndex } from '../score-schemas.ts';
import { decisionsShape } from './decisions.ts';
import { instrumentChoice } from './instruments.ts';
import { nameOf, shapeOf } from './option-schemas.ts';

/** What to read of a file: the part, where the score does not say which is the harp, and the tune of a tune book. */
export const partShape = {
  part: nameOf('the id or the name of a part', 500)
    .exactOptional()
    .meta({ description: 'The id or the name of the part. If not given, tringle looks for the harp.' }),
  tune: nameOf('the number or the title of a tune', 500)
    .exactOptional()
    .meta({ description: 'The number (X:) or the title of the tune, if an ABC file has several.' }),
  movement: nameOf('the number or the title of a movement', 500).exactOptional().meta({
    description:
      'The movement to read, if an MEI file has several: its place among them, from 1, or its title. If not given, a PDF has all of them, one after the other, and anything else the first.',
  }),
};

export const instrumentShape = { instrument: instrumentChoice.exactOptional() };

const sharingShape = shapeOf(SHARING_CATALOGUE);

const pedalShape = shapeOf(PEDAL_CATALOGUE);

export const leverShape = shapeOf(LEVER_CATALOGUE);

export const footRestShape = { footRestSeconds: pedalShape.footRestSeconds };

/** How the pedals or levers are planned. */
export const planShape = {
  ...instrumentShape,
  ...sharingShape,
  ...pedalShape,
  ...leverShape,
  ...decisionsShape,
};

/** How the pages look. */
export const engravingShape = shapeOf(ENGRAVING_CATALOGUE);

export const planOptions = z.strictObject({ ...partShape, ...planShape }).meta({ id: 'PlanOptions' });

/** What the search for fixes goes by: a plan for the pedal harp. */
export const fixesOptions = z
  .strictObject({ ...partShape, ...instrumentShape, ...sharingShape, ...pedalShape, ...decisionsShape })
  .meta({ id: 'FixesOptions' });

export type FixesChoice = z.infer<typeof fixesOptions>;

const pageOption = (types: string) =>
  z
    .int()
    .min(1)
    .max(999_999)
    .exactOptional()
    .meta({ description: `The page to draw, counting from 1; for ${types}.` });

/** What a file says of itself holds where nothing is asked for. */
const marksAtShape = {
  marksAt: z.enum(['foot', 'note']).exactOptional().meta({
    description:
      'Where the file has its changes: where the foot moves, or at the notes that need them. If not given, a file that tringle has annotated tells it itself; else where the foot moves.',
  }),
};

/** How the pages of a proofread part look: the rest is as in the file. */
export const proofLookShape = {
  language: engravingShape.language,
  naming: engravingShape.naming,
  paper: engravingShape.paper,
  staffMm: engravingShape.staffMm,
};

export const proofOptions = z
  .strictObject({
    ...partShape,
    ...instrumentShape,
    ...footRestShape,
    tuning: leverShape.tuning,
    leverSeconds: leverShape.leverSeconds,
    ...marksAtShape,
    repair: z.boolean().exactOptional().meta({
      description:
        'Whether to give back the score file with its own markings corrected, and nothing else changed, in place of the report.',
    }),
    edits: z
      .string()
      .max(40_000)
      .regex(/^(?:\d+(?:,\d+)*)?$/u, 'it must be indices of edits with commas between, such as 0,3')
      .exactOptional()
      .meta({
        description:
          'For the corrected file: which edits of the repair to make, by their indices in the report, counted from 0, with commas between. Those that they depend on are made too. All if not given.',
        examples: ['0,3'],
      }),
    page: pageOption('image/svg+xml'),
    ...proofLookShape,
  })
  .meta({ id: 'ProofOptions' });

/** A pupil's attempt to be marked. */
export const markOptions = z
  .strictObject({
    ...partShape,
    ...instrumentShape,
    ...footRestShape,
    tuning: leverShape.tuning,
    leverSeconds: leverShape.leverSeconds,
    ...marksAtShape,
    points: z.boolean().exactOptional().meta({
      description:
        'Whether points are counted on the pages: two for what is right, one for what has a better place. The report has them in any case.',
    }),
    pages: z.enum(['all', 'none']).exactOptional().meta({
      description:
        'Whether the report includes drawings of the marked pages; for application/json. None if not given.',
    }),
    page: pageOption('image/svg+xml'),
    ...proofLookShape,
  })
  .meta({ id: 'MarkOptions' });

export const annotateOptions = z
  .strictObject({
    ...partShape,
    page: pageOption('image/svg+xml and image/png'),
    allHarps: z.boolean().exactOptional().meta({
      description:
        'Annotate every harp of the score: a part for each, a score of them all, and one file with all markings, together as application/zip; or that file alone, in its own media type. The part and the decisions of the request are those of one harp.',
    }),
    pages: z.enum(['all', 'none']).exactOptional().meta({
      description: 'Whether the report includes drawings of the pages; for application/json.',
    }),
    pageOfBar: barIndex.max(DECISION_LIMITS.barIndex).exactOptional().meta({
      description:
        'The index of a bar, from 0: the page that holds it is sent before the others; for text/event-stream. In their order if not given, or where the part has no such bar.',
    }),
    ...planShape,
    ...engravingShape,
  })
  .meta({ id: 'AnnotateOptions' });

export type PlanChoice = z.infer<typeof planOptions>;
export type MarkChoice = z.infer<typeof markOptions>;
export type ProofChoice = z.infer<typeof proofOptions>;
export type AnnotateChoice = z.infer<typeof annotateOptions>;
