import { z } from 'zod';
import { LEVER_CATALOGUE } from '../../engine/levers/catalogue.ts';
import { PEDAL_CATALOGUE } from '../../engine/pedals/catalogue.ts';
import { ENGRAVING_CATALOGUE } from '../../render/engraving-catalogue.ts';
import { instrumentChoice } from './instruments.ts';
import { shapeOf } from './option-schemas.ts';
import { workShape } from './work.ts';

/** The part to read, where the score does not say which is the harp. */
export const partShape = {
  part: z
    .string()
    .max(500)
    .refine((part) => part.trim() !== '', 'name a part by its id or its name')
    .exactOptional()
    .meta({ description: 'The part by its id or its name; without it the harp is looked for.' }),
};

export const instrumentShape = { instrument: instrumentChoice.exactOptional() };

const pedalShape = shapeOf(PEDAL_CATALOGUE);

export const leverShape = shapeOf(LEVER_CATALOGUE);

export const footRestShape = { footRest: pedalShape.footRest };

/** How the pedals or levers are planned. */
export const planShape = { ...instrumentShape, ...pedalShape, ...leverShape, ...workShape };

/** How the pages look. */
export const engravingShape = shapeOf(ENGRAVING_CATALOGUE);

export const planOptions = z.strictObject({ ...partShape, ...planShape }).meta({ id: 'PlanOptions' });

export const proofOptions = z
  .strictObject({ ...partShape, ...instrumentShape, ...footRestShape })
  .meta({ id: 'ProofOptions' });

export const annotateOptions = z
  .strictObject({
    ...partShape,
    page: z
      .int()
      .min(1)
      .max(999_999)
      .exactOptional()
      .meta({ description: 'The page wanted, from 1; for image/svg+xml.' }),
    pages: z.enum(['all', 'none']).exactOptional().meta({
      description: 'Whether the report holds the pages as drawings; for application/json.',
    }),
    ...planShape,
    ...engravingShape,
  })
  .meta({ id: 'AnnotateOptions' });

export type PlanChoice = z.infer<typeof planOptions>;
export type ProofChoice = z.infer<typeof proofOptions>;
export type AnnotateChoice = z.infer<typeof annotateOptions>;
