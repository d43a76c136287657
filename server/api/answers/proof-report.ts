import * as z from 'zod';
import { PROOF_FINDING_CODES } from '../../../engine/index.ts';
import {
  barIndex,
  barName,
  barNumber,
  beat,
  letter,
  positionName,
  scoreTime,
  settingText,
} from '../score-schemas.ts';
import { findingCode, findingShape, remark } from './report.ts';

const placeShape = { at: scoreTime, bar: barNumber, barName, barIndex, beat };

const marking = z.int().meta({
  description:
    'Index of a marking, counting all markings of the file in order from 0; for a lever harp all words that tell of levers, or seem to.',
});

export const lever = z
  .string()
  .meta({ description: 'A string with a lever, by letter and octave.', examples: ['F4'] });

export const leverNote = z.string().meta({ description: 'What the string is to give.', examples: ['F♯4'] });

const markingFix = z
  .discriminatedUnion('kind', [
    z.object({ kind: z.literal('add'), pedal: letter, position: positionName, ...placeShape }),
    z.object({ kind: z.literal('add-setting'), setting: settingText, ...placeShape }),
    z.object({ kind: z.literal('alter'), marking, pedal: letter, position: positionName }),
    z.object({ kind: z.literal('move'), marking, pedal: letter, ...placeShape }),
    z.object({
      kind: z.literal('rename'),
      marking,
      pedal: letter,
      to: letter.meta({ description: 'The pedal that is meant.' }),
      position: positionName,
    }),
    z.object({ kind: z.literal('move-marking'), marking, ...placeShape }),
    z.object({ kind: z.literal('remove-marking'), marking }),
    z.object({ kind: z.literal('remove'), marking, pedal: letter }),
    z.object({ kind: z.literal('add-lever'), lever, note: leverNote, ...placeShape }),
    z.object({ kind: z.literal('alter-lever'), marking, lever, note: leverNote }),
    z.object({
      kind: z.literal('rename-lever'),
      marking,
      lever,
      to: lever.meta({ description: 'The string that is meant.' }),
      note: leverNote,
    }),
    z.object({ kind: z.literal('move-lever'), marking, lever, note: leverNote, ...placeShape }),
    z.object({ kind: z.literal('remove-lever'), marking, lever }),
  ])
  .meta({
    id: 'MarkingFix',
    description:
      'One change to the markings of the file: of a pedal, or (with -lever in its kind) of the lever of one string.',
  });

export type ReportedMarkingFix = z.infer<typeof markingFix>;

export const proofReport = z
  .object({
    title: z.string(),
    part: z.object({ ids: z.array(z.string()).readonly(), name: z.string() }),
    harp: z.enum(['pedal', 'lever']).meta({ description: 'Which harp the markings are for.' }),
    bars: z.int(),
    markings: z.int().meta({
      description: 'How many markings of pedals the file has; for a lever harp, texts that tell of levers.',
    }),
    notesChecked: z
      .int()
      .meta({ description: 'How many times a note needed a pedal or lever position, counting repeats.' }),
    correct: z
      .boolean()
      .meta({ description: 'Whether the markings are right: no finding has the severity stop or warn.' }),
    findings: z
      .array(
        z
          .object({
            code: findingCode(PROOF_FINDING_CODES),
            ...findingShape,
            fix: markingFix.nullable().meta({
              description:
                'The change to a marking that fixes it; null if there is none. With the further changes it causes no new fault.',
            }),
            furtherFixes: z
              .array(markingFix)
              .readonly()
              .meta({ description: 'Further changes to make with it.' }),
          })
          .meta({ id: 'ProofFinding' }),
      )
      .readonly(),
    repair: z
      .object({
        edits: z
          .array(
            z.object({
              sentence: z.string(),
              changes: z.array(markingFix).readonly().meta({
                description: 'Made as one edit: to one marking, or one new one.',
              }),
              with: z.array(z.int()).readonly().meta({
                description: 'Indices of the edits without which this one would cause a new fault.',
              }),
            }),
          )
          .readonly(),
        proven: z.boolean().meta({
          description: 'Whether it is certain that no fewer changes to single pedals or levers would do.',
        }),
        faultsLeft: z.int().meta({
          description: 'How many faults are left that no marking can fix, or for which no fix was found.',
        }),
      })
      .meta({
        id: 'MarkingRepair',
        description:
          'The fewest edits after which every note finds its pedal and the feet have time, or its lever and a hand has time. The endpoint gives back the file with all of them made if you ask for a score format.',
      }),
    remarks: z.array(remark).readonly(),
  })
  .meta({
    id: 'ProofReport',
    description: 'What goes wrong if the player follows the markings of the file.',
  });

export type ProofReport = z.infer<typeof proofReport>;
