import * as z from 'zod';
import { type NonEmpty, namesIn, PEDAL_FINDING_CODES, REMARK_KINDS } from '../../../engine/index.ts';
import { notesAt } from '../requests/decisions.ts';
import {
  barIndex,
  barName,
  barNumber,
  beat,
  foot,
  letter,
  partSummary,
  positionName,
  scoreTime,
  settingText,
  severity,
  stringName,
} from '../score-schemas.ts';
import { reportedDifficulty } from './difficulty.ts';

/** Where a move of a pedal or a lever is made, why there, and what speaks against it. */
export const moveShape = {
  at: scoreTime,
  bar: barNumber,
  barName,
  barIndex,
  beat,
  graceNote: z.string().nullable().meta({
    description:
      'Id of the grace note before which the move is made; null if it is made at a note or on a beat.',
  }),
  restores: z.boolean().meta({
    description:
      'Whether the change is needed only when the music jumps here; coming from the bar before, the pedal or lever is already there.',
  }),
  window: z.object({ after: scoreTime.nullable(), before: scoreTime.nullable() }).meta({
    description:
      'When the move can be made: after the last note that needs the old position (null if there is none) and before the first note that needs the new one (null if it comes only after a jump).',
  }),
  freedBy: z.string().nullable().meta({ description: 'Id of the last note that needs the old position.' }),
  neededBy: z.string().nullable().meta({ description: 'Id of the first note that needs the new position.' }),
  cost: z
    .object({
      sum: z.number(),
      terms: z.array(z.object({ name: z.string(), amount: z.number() })).readonly(),
    })
    .meta({ description: 'The drawbacks of this moment, each with its price, and the total price.' }),
};

const reportedMove = z
  .object({
    ...moveShape,
    told: z.object({ at: scoreTime, bar: barNumber, barName, barIndex, beat }).nullable().meta({
      description:
        'Where the part tells the move, if that is another bar or beat: moves in a rest are told together, and with letters at the notes those stand there. An answer without pages goes by the usual options. null where both are one.',
    }),
    foot,
    pedal: letter,
    from: positionName,
    to: positionName,
    change: z.string().meta({ description: 'The change as it is printed for the player.', examples: ['C♯'] }),
  })
  .meta({ id: 'Move', description: 'One move of one pedal.' });

export type ReportedMove = z.infer<typeof reportedMove>;

/** Which findings there are: those of the catalogue that the report can hold. */
export const findingCode = <Code extends string>(codes: NonEmpty<Code>) =>
  z.enum(codes).meta({ description: 'The kind of finding; the table of findings says when each is told.' });

const findingPlace = z
  .object({
    bar: barNumber,
    barName,
    barIndex,
    beat,
    notes: z.array(z.string()).readonly(),
    sentence: z.string(),
  })
  .meta({ id: 'FindingPlace', description: 'One place of a finding, and what goes wrong there.' });

/** What findings of plans and of proofs have in common beside their codes. */
export const findingShape = {
  severity,
  bar: barNumber,
  barName,
  barIndex,
  beat,
  staff: z.int().nullable().meta({
    description: '1 is the upper staff; null if the finding belongs to no staff.',
  }),
  untilBar: z.string().meta({
    description: 'The printed number of the last bar that it is about; for a single place the same as bar.',
  }),
  untilName: barName,
  notes: z.array(z.string()).readonly().meta({ description: 'Ids of all the notes concerned.' }),
  sentence: z.string(),
  suggestions: z.array(z.string()).readonly(),
  places: z
    .array(findingPlace)
    .readonly()
    .meta({ description: 'Every place that it is about, in order; the first is at bar and beat.' }),
};

export const respelledNote = z
  .object({ kind: z.literal('respell'), note: z.string(), at: notesAt, to: z.string() })
  .meta({ id: 'RespelledNote', description: 'A note, and the pitch of the string to play it on.' });

export const omittedNote = z
  .object({ kind: z.literal('omit'), note: z.string(), at: notesAt })
  .meta({ id: 'OmittedNote', description: 'A note that is left out in this part.' });

export const noteChange = z.discriminatedUnion('kind', [respelledNote, omittedNote]).meta({
  id: 'NoteChange',
  description:
    'The id of a note, its place in the form that the options respell and omit take, and the pitch of the string to play it on.',
});

const noteFix = z
  .object({
    sentence: z.string(),
    changes: z.array(noteChange).readonly(),
    moreMoves: z.int().meta({
      description:
        'By how many moves the plan then grows at the most, with or without the first fixes of the other findings; below 0 where it shrinks.',
    }),
  })
  .meta({
    id: 'NoteFix',
    description: 'Changes to notes that together fix a place.',
  });

/** What a finding of a plan has beside those of a proof. */
export const noteFixes = {
  fixes: z.array(noteFix).readonly().meta({
    description:
      'Ways to fix it by changing notes, each complete in itself. The first ones of all findings can be taken together, and another one in place of the first. Each is also in the suggestions, in words.',
  }),
};

const reportedFinding = z
  .object({ code: findingCode(PEDAL_FINDING_CODES), ...findingShape, ...noteFixes })
  .meta({ id: 'Finding', description: 'What goes wrong, where, and how to fix it.' });

export type ReportedNoteFix = z.infer<typeof noteFix>;

export type ReportedFinding = z.infer<typeof reportedFinding>;

const reportedSummary = z
  .object({
    moves: z.int(),
    minMoves: z.int().meta({
      description:
        'No plan that can be played has fewer moves: with free spelling, in no spelling that could be chosen.',
    }),
    busiest: z.object({ foot, bar: barNumber, barName, movesInBar: z.int() }).nullable().meta({
      description:
        'The foot with more moves, the bar in which it moves most often, and how often; null if nothing moves.',
    }),
    playable: z.boolean().meta({
      description:
        'Whether the part is playable: no finding has the severity stop. The verdict says what hands and feet can do.',
    }),
    firstFailure: z
      .string()
      .nullable()
      .meta({ description: 'The first bar that is not playable as printed.' }),
    difficulty: reportedDifficulty,
    provenOptimal: z.boolean().meta({
      description: 'true if no plan is better; false if there were too many possible plans to be sure.',
    }),
  })
  .meta({ id: 'PlanSummary', description: 'The plan in figures.' });

export type ReportedSummary = z.infer<typeof reportedSummary>;

export const remark = z
  .object({
    code: z.enum(namesIn(REMARK_KINDS)).meta({
      description: `What it tells. ${Object.entries(REMARK_KINDS)
        .map(([code, meaning]) => `${code}: ${meaning}`)
        .join('; ')}.`,
    }),
    bar: z.string().meta({ description: 'The printed number; empty for the whole score.' }),
    barName: z.string().meta({
      description:
        'How people are told of the bar: its number, after the numeral of its movement where they are numbered anew. Empty for the whole score.',
    }),
    message: z.string(),
  })
  .meta({
    id: 'Remark',
    description: 'How an unclear place in the file was read, what was ignored, or what is printed otherwise.',
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

/** Notes that are not played as they are written, on either harp. */
export const changedNotesShape = {
  respellings: z
    .array(
      z.object({
        note: z.string(),
        bar: barNumber,
        barName,
        at: notesAt,
        from: z.string(),
        to: z.string(),
      }),
    )
    .readonly()
    .meta({
      description: 'Notes that are played on a string of another name.',
      examples: [
        [{ note: 'n12', bar: '4', at: { barIndex: 3, beat: '1', pitch: 'F♭4' }, from: 'F♭4', to: 'E4' }],
      ],
    }),
  omitted: z.array(z.string()).readonly().meta({ description: 'Ids of the notes that are left out.' }),
};

const suggestedRun = z.object({
  notes: z.array(z.string()).readonly(),
  octaves: z.array(z.int()).readonly().meta({ description: 'In which they are written, from below.' }),
  bars: z.string().meta({ description: 'Where they are, in words: `bars 3–5 and 9`.' }),
  from: z.string().meta({ description: 'As they are written, with the octave where it is one.' }),
  to: z.string().meta({ description: 'The strings that give them, named likewise.' }),
});

const planShape = {
  harp: z.literal('pedal').meta({ description: 'Which harp the plan is for.' }),
  setting: settingText,
  moves: z.array(reportedMove).readonly(),
  findings: z.array(reportedFinding).readonly().meta({
    description:
      'In order of place. The same trouble in neighbouring bars is one finding with several places.',
  }),
  ...changedNotesShape,
  suggestions: z
    .array(
      suggestedRun.extend({
        alongside: z.array(suggestedRun).readonly().meta({
          description: 'Notes that go to other strings with these, to make room for them.',
        }),
        changes: z.array(noteChange).readonly().meta({
          description:
            'What to change, for all of these notes: each has the string that gives its own octave.',
        }),
        savesMoves: z.int().meta({ description: 'Below 0 where it costs moves.' }),
        fixesPlaces: z.int().meta({
          description: 'How many places would become playable.',
        }),
      }),
    )
    .readonly()
    .meta({
      description: 'Notes that could be played on a string of another name, and what that would save.',
    }),
  tunings: z
    .array(z.object({ string: stringName, to: z.string() }))
    .readonly()
    .meta({
      description: 'Strings that no pedal changes, and the pitches to tune them to before the piece.',
    }),
  summary: reportedSummary,
  remarks: z.array(remark).readonly(),
};

export const planReport = z
  .object({ ...scoreShape, ...planShape })
  .meta({ id: 'PlanReport', description: 'The plan of a harp part.' });

export type PlanReport = z.infer<typeof planReport>;

/** What is told of the pages. */
export const annotatedShape = {
  flags: z
    .array(
      z.object({
        number: z.int(),
        bar: barNumber,
        barName,
        barIndex,
        beat,
        findings: z.array(z.int()).readonly().meta({ description: 'Indices of the findings at this place.' }),
      }),
    )
    .readonly()
    .meta({
      description: 'The places that are not playable, with their numbers on the pages.',
    }),
  turns: z
    .array(
      z.object({
        page: z.int(),
        bar: z.string().meta({ description: 'The first bar of the next page.' }),
        barName,
        free: z.enum(['both-hands', 'one-hand', 'none']),
        seconds: z.number().nullable().meta({
          description: 'How long the hands are free; null if they do not play again.',
        }),
      }),
    )
    .readonly()
    .meta({ description: 'Where pages are turned, and which hands are free for it.' }),
  pageCount: z.int().nullable().meta({ description: 'The number of pages; null if no pages were drawn.' }),
  pages: z.array(z.string()).readonly().meta({
    description: 'The pages as SVG documents; empty if no pages were drawn.',
  }),
};

export const annotateReport = z
  .object({ ...scoreShape, ...planShape, ...annotatedShape })
  .meta({ id: 'AnnotateReport', description: 'The plan of a harp part, with its pages.' });

export type AnnotateReport = z.infer<typeof annotateReport>;
