import { z } from 'zod';
import { PEDAL_FINDING_CODES } from '../../engine/findings/catalogue.ts';
import {
  beat,
  foot,
  letter,
  partSummary,
  positionName,
  scoreTime,
  settingText,
  severity,
  stringName,
} from './score-values.ts';
import { notesAt } from './work.ts';

/** Where a move of a pedal or a lever is made, why there, and what speaks against it. */
export const moveShape = {
  at: scoreTime,
  bar: z.string().meta({ description: 'The printed number of the bar.' }),
  beat,
  graceNote: z.string().nullable().meta({
    description:
      'Id of the grace note before which the move is made; null where it is made at an onset or a beat.',
  }),
  restores: z.boolean().meta({
    description:
      'It brings the pedal or lever back where the music jumps here; read on from the bar before, it is there already.',
  }),
  window: z.object({ after: scoreTime.nullable(), before: scoreTime.nullable() }).meta({
    description:
      'The move is made after the last need of the old position (null where nothing needed it before) and before the first need of the new one (null where that comes only after a jump).',
  }),
  freedBy: z.string().nullable().meta({ description: 'Id of the last note that needs the old position.' }),
  neededBy: z.string().nullable().meta({ description: 'Id of the first note that needs the new position.' }),
  cost: z
    .object({
      sum: z.number(),
      terms: z.array(z.object({ name: z.string(), amount: z.number() })).readonly(),
    })
    .meta({ description: 'What speaks against the moment of the move, and how much in all.' }),
};

const reportedMove = z
  .object({
    ...moveShape,
    foot,
    pedal: letter,
    from: positionName,
    to: positionName,
    change: z.string().meta({ description: 'As printed for the player.', examples: ['C♯'] }),
  })
  .meta({ id: 'Move', description: 'One move of one pedal.' });

export type ReportedMove = z.infer<typeof reportedMove>;

/** Which findings there are: those of the catalogue that the report can hold. */
export const findingCode = <Code extends string>(codes: readonly [Code, ...Code[]]) =>
  z.enum(codes).meta({ description: 'The kind of finding; the table of findings says when each is told.' });

/** What findings of plans and of proofs have in common beside their codes. */
export const findingShape = {
  severity,
  bar: z.string().meta({ description: 'The printed number of the bar.' }),
  beat,
  staff: z.int().nullable().meta({
    description: 'From 1, the upper staff of the harp; null where the finding belongs to no staff.',
  }),
  notes: z.array(z.string()).readonly().meta({ description: 'Ids of the notes.' }),
  sentence: z.string(),
  suggestions: z.array(z.string()).readonly(),
};

const noteChange = z
  .discriminatedUnion('kind', [
    z.object({ kind: z.literal('respell'), note: z.string(), at: notesAt, to: z.string() }),
    z.object({ kind: z.literal('leave-out'), note: z.string(), at: notesAt }),
  ])
  .meta({
    id: 'NoteChange',
    description:
      'A note by its id, and by its place as the options respell and leaveOut take it; and the string it is played on instead.',
  });

const noteMend = z.object({ sentence: z.string(), changes: z.array(noteChange).readonly() }).meta({
  id: 'NoteMend',
  description: 'Changes to notes that together mend a place.',
});

/** What a finding of a plan has beside those of a proof. */
export const noteMends = {
  mends: z.array(noteMend).readonly().meta({
    description:
      'Changes to notes that would mend it, each as a whole; each is also told among the suggestions.',
  }),
};

const reportedFinding = z
  .object({ code: findingCode(PEDAL_FINDING_CODES), ...findingShape, ...noteMends })
  .meta({ id: 'Finding', description: 'One thing to know: what, where, why, and what would mend it.' });

export type ReportedMend = z.infer<typeof noteMend>;

export type ReportedFinding = z.infer<typeof reportedFinding>;

const reportedSummary = z
  .object({
    moves: z.int(),
    leastMoves: z.int().meta({
      description: 'The fewest moves that any plan for these notes could have if the feet needed no time.',
    }),
    busiest: z
      .object({ foot, bar: z.string(), movesInBar: z.int() })
      .nullable()
      .meta({ description: 'The foot with more moves, and the bar with most; null where nothing moves.' }),
    playable: z.boolean().meta({ description: 'No finding of severity stop remains.' }),
    firstFailure: z
      .string()
      .nullable()
      .meta({ description: 'The earliest bar that cannot be played as printed.' }),
    proved: z.boolean().meta({
      description: 'No plan is better; false where repeats leave too many ways to be sure.',
    }),
  })
  .meta({ id: 'PlanSummary', description: 'The plan in figures.' });

export type ReportedSummary = z.infer<typeof reportedSummary>;

export const remark = z
  .object({
    code: z.string(),
    bar: z.string().meta({ description: 'The printed number; empty for the whole score.' }),
    message: z.string(),
  })
  .meta({
    id: 'Remark',
    description: 'How the file was read where it left a choice, and what was passed over.',
  });

/** What every report tells of the score. */
export const scoreShape = {
  title: z.string(),
  subtitle: z.string(),
  composer: z.string(),
  part: z.object({ ids: z.array(z.string()).readonly(), name: z.string() }),
  parts: z.array(partSummary).readonly(),
  bars: z.int().meta({ description: 'How many printed bars.' }),
};

const planShape = {
  harp: z.literal('pedal').meta({ description: 'Which harp the plan is for.' }),
  setting: settingText,
  moves: z.array(reportedMove).readonly(),
  findings: z.array(reportedFinding).readonly(),
  respellings: z
    .array(z.object({ note: z.string(), from: z.string(), to: z.string() }))
    .readonly()
    .meta({
      description: 'Notes read as another string.',
      examples: [[{ note: 'n12', from: 'F♭4', to: 'E4' }]],
    }),
  leftOut: z.array(z.string()).readonly().meta({ description: 'Ids of the notes that are left out.' }),
  suggestions: z
    .array(
      z.object({
        notes: z.array(z.string()).readonly(),
        from: z.string(),
        to: z.string(),
        savesMoves: z.int(),
        mendsPlaces: z.int().meta({
          description: 'How many places that cannot be played would become playable.',
        }),
      }),
    )
    .readonly()
    .meta({ description: 'Notes that could be read as another string, and what that would save.' }),
  tunings: z
    .array(z.object({ string: stringName, to: z.string() }))
    .readonly()
    .meta({ description: 'Strings that no pedal reaches, and what to tune them to before the piece.' }),
  summary: reportedSummary,
  remarks: z.array(remark).readonly(),
};

export const planReport = z
  .object({ ...scoreShape, ...planShape })
  .meta({ id: 'PlanReport', description: 'What was worked out about a harp part.' });

export type PlanReport = z.infer<typeof planReport>;

/** What is told of the pages. */
export const annotatedShape = {
  flags: z
    .array(
      z.object({
        number: z.int(),
        bar: z.string(),
        beat,
        findings: z.array(z.int()).readonly().meta({ description: 'Indices into the findings.' }),
      }),
    )
    .readonly()
    .meta({
      description: 'The places that cannot be played, with the numbers that they bear on the pages.',
    }),
  turns: z
    .array(
      z.object({
        page: z.int(),
        bar: z.string().meta({ description: 'The first bar of the next page.' }),
        free: z.enum(['both-hands', 'one-hand', 'none']),
        seconds: z.number().nullable().meta({
          description: 'How long the hands are free; null where they do not play again.',
        }),
      }),
    )
    .readonly()
    .meta({ description: 'Where pages are turned, and which hands are free for it.' }),
  pageCount: z.int().nullable().meta({ description: 'Null where the part was not laid out.' }),
  pages: z.array(z.string()).readonly().meta({
    description: 'The pages as SVG documents; empty where the part was not laid out.',
  }),
};

export const annotateReport = z
  .object({ ...scoreShape, ...planShape, ...annotatedShape })
  .meta({ id: 'AnnotateReport', description: 'What was worked out about a harp part, with its pages.' });

export type AnnotateReport = z.infer<typeof annotateReport>;
