import * as z from 'zod';
import { HANDOUT_NAMES, HANDOUTS } from '../../../render/pure.ts';
import { engravingShape } from './options.ts';

/** How a wall chart looks. */
const lookShape = {
  language: engravingShape.language,
  naming: engravingShape.naming,
  paper: engravingShape.paper,
};

/** What of a wall chart can be chosen on the command line, where all its pages are written. */
export const handoutLook = z.strictObject(lookShape);

export const handoutOptions = z
  .strictObject({
    ...lookShape,
    page: z
      .int()
      .min(1)
      .max(999)
      .exactOptional()
      .meta({ description: 'The page to draw, counting from 1; for image/svg+xml.' }),
  })
  .meta({ id: 'HandoutOptions' });

export type HandoutChoice = z.infer<typeof handoutOptions>;

/** Every wall chart with what it shows, one a line. */
export const describeHandouts = (): readonly string[] =>
  HANDOUT_NAMES.map((name) => `${name}: ${HANDOUTS[name].description}`);
