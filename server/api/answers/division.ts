import * as z from 'zod';
import { OPTION_CATALOGUE } from '../../../render/pure.ts';
import { annotateOptions } from '../requests/options.ts';
import { barName } from '../score-schemas.ts';
import { anyPlanReport } from './lever-report.ts';
import { remark, scoreShape } from './report.ts';

/** A lever harp's part is not divided. */
const LEVER_OPTIONS = Object.fromEntries(
  Object.entries(OPTION_CATALOGUE)
    .filter(([, { harps }]) => harps === 'lever')
    .map(([name]) => [name, true]),
) as Record<never, true>;

/** How a part is divided, planned and printed for two. */
export const divideOptions = annotateOptions
  .omit({ player: true, allHarps: true, page: true, pageOfBar: true, pages: true })
  .omit(LEVER_OPTIONS)
  .meta({ id: 'DivideOptions' });

const AIM = z.enum(['balanced', 'least']);

export const divisionReport = z
  .object({
    ...scoreShape,
    least: z
      .object({
        notes: z.int(),
        bars: z.array(z.string()).readonly().meta({ description: 'Printed numbers.' }),
        barNames: z.array(barName).readonly().meta({ description: 'How people are told of the same bars.' }),
        barIndices: z.array(z.int()).readonly().meta({ description: 'The same bars, counted from 0.' }),
        sentence: z.string(),
      })
      .meta({
        description:
          'The least that was found for the second harp to play, whatever the aim; its sentence says where nothing less can be.',
      }),
    aim: AIM.meta({ description: 'What the part was divided for; balanced if not given.' }),
    sentence: z.string(),
    proved: z.boolean().meta({
      description: 'Whether no other division of the same groups of notes is better by the weights.',
    }),
    players: z
      .array(
        z.object({
          notes: z.array(z.string()).readonly().meta({ description: 'Ids of the notes of this player.' }),
          plan: anyPlanReport,
        }),
      )
      .readonly()
      .meta({ description: 'The first player and the second.' }),
    remarks: z.array(remark).readonly(),
  })
  .meta({ id: 'DivisionReport', description: 'A part divided between two players.' });

export type DivideChoice = z.infer<typeof divideOptions>;
export type DivisionReport = z.infer<typeof divisionReport>;
