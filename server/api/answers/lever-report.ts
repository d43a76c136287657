import * as z from 'zod';
import { LEVER_FINDING_CODES } from '../../../engine/index.ts';
import { barName, barNumber, hand, leverPosition, stringName } from '../score-schemas.ts';
import { reportedDifficulty } from './difficulty.ts';
import {
  annotatedShape,
  annotateReport,
  changedNotesShape,
  findingCode,
  findingShape,
  moveShape,
  noteFixes,
  planReport,
  remark,
  scoreShape,
} from './report.ts';

const pitchText = z
  .string()
  .meta({ description: 'The lever change as it is printed for the player.', examples: ['F♯4'] });

const leverMove = z
  .object({
    ...moveShape,
    hand,
    string: stringName,
    to: leverPosition,
    change: pitchText,
    onlyAt: z.enum(['first', 'later']).nullable().meta({
      description:
        'The one time of playing its bar at which the change is made, where it would cost a note or another change at the others: the first, or each later one. Null where it is made each time.',
    }),
    handAway: z
      .object({
        after: z.string().nullable().meta({ description: 'Id of the last note that the hand plays before.' }),
        before: z.string().nullable().meta({ description: 'Id of its first note when it is back.' }),
      })
      .nullable()
      .meta({
        description:
          'Between which of its notes the hand is away, null at an end where it plays none; null altogether where it has no time for the change.',
      }),
  })
  .meta({ id: 'LeverMove', description: 'One lever goes up or down.' });

export type ReportedLeverMove = z.infer<typeof leverMove>;

const tuningCost = z
  .object({
    name: z.string().meta({ examples: ['E♭ major'] }),
    missingNotes: z.int().meta({
      description:
        'How many notes are missing: no string gives them, or their string has to sound another pitch at the same time.',
    }),
    changes: z
      .int()
      .meta({ description: 'The fewest lever changes, not counting the time that hands need.' }),
    respelled: z.int().meta({ description: 'How many pitches are played on a string of another name.' }),
    leversUp: z.int().meta({ description: 'How many levers are up at the start.' }),
    retuned: z.int().meta({ description: 'How many strings that the piece uses have to be retuned.' }),
    stops: z.int().nullable().meta({
      description:
        'How much is not playable: the missing notes, and the changes for which no hand has time. Null where no plan was made in this tuning, since by its figures it could not be better than the chosen one.',
    }),
  })
  .meta({ id: 'TuningCost', description: 'What one tuning of the open strings would ask of the player.' });

const leverPlanShape = {
  harp: z.literal('lever').meta({ description: 'Which harp the plan is for.' }),
  instrument: z.string().meta({ description: 'The harp in words.' }),
  tuning: z.string().meta({ description: 'How the open strings are tuned.', examples: ['E♭ major'] }),
  levers: z.array(pitchText).readonly().meta({
    description:
      'The levers that are up before the first note, as the pitches that their strings then sound.',
  }),
  strings: z
    .array(
      z.object({
        string: stringName,
        open: z.string().meta({ description: 'What it gives with its lever down.', examples: ['B♭3'] }),
        lever: z.boolean().meta({ description: 'Whether it has a lever.' }),
      }),
    )
    .readonly()
    .meta({ description: 'The strings of the harp, from the lowest, as they are tuned.' }),
  moves: z.array(leverMove).readonly(),
  findings: z
    .array(
      z
        .object({ code: findingCode(LEVER_FINDING_CODES), ...findingShape, ...noteFixes })
        .meta({ id: 'LeverFinding', description: 'One thing to know about the levers.' }),
    )
    .readonly(),
  ...changedNotesShape,
  tunings: z
    .array(tuningCost)
    .readonly()
    .meta({ description: 'Tunings that were considered, the chosen one first.' }),
  summary: z
    .object({
      changes: z.int(),
      minChanges: z.int().meta({
        description: 'The fewest lever changes in this tuning, not counting the time that hands need.',
      }),
      leversUp: z.int(),
      busiest: z.object({ bar: barNumber, barName, changesInBar: z.int() }).nullable(),
      playable: z
        .boolean()
        .meta({ description: 'Whether the part is playable: no finding has the severity stop.' }),
      firstFailure: z.string().nullable(),
      difficulty: reportedDifficulty,
      provenOptimal: z.boolean().meta({
        description:
          'true if no plan in this tuning is better; false if there were too many possible plans to be sure.',
      }),
      allTuningsTried: z.boolean().meta({
        description:
          'true if no other key tuning leaves fewer places unplayable; false if there were so many changes that not all tunings were tried.',
      }),
    })
    .meta({ id: 'LeverSummary', description: 'The plan in figures.' }),
  remarks: z.array(remark).readonly(),
};

const leverPlanReport = z
  .object({ ...scoreShape, ...leverPlanShape })
  .meta({ id: 'LeverPlanReport', description: 'The plan of a part for the lever harp.' });

export type LeverPlanReport = z.infer<typeof leverPlanReport>;

const leverAnnotateReport = z.object({ ...scoreShape, ...leverPlanShape, ...annotatedShape }).meta({
  id: 'LeverAnnotateReport',
  description: 'The plan of a part for the lever harp, with its pages.',
});

export type LeverAnnotateReport = z.infer<typeof leverAnnotateReport>;

/** The report of either harp, told apart by `harp`. */
export const anyPlanReport = z
  .discriminatedUnion('harp', [planReport, leverPlanReport])
  .meta({ id: 'AnyPlanReport', description: 'The plan for the harp of the part.' });

export const anyAnnotateReport = z.discriminatedUnion('harp', [annotateReport, leverAnnotateReport]).meta({
  id: 'AnyAnnotateReport',
  description: 'The plan for the harp of the part, with its pages.',
});
