import * as z from 'zod';
import { PROOF_FINDING_CODES } from '../../../engine/index.ts';
import { barIndex, barNumber, beat, letter, positionName, scoreTime, settingText } from '../score-schemas.ts';
import { findingCode, findingShape, remark } from './report.ts';

const placeShape = { at: scoreTime, bar: barNumber, barIndex, beat };

const marking = z
  .int()
  .meta({ description: 'Index of a marking, counting all markings of the file in order from 0.' });

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
  ])
  .meta({ id: 'MarkingFix', description: 'One change to the markings of the file.' });

export type ReportedMarkingFix = z.infer<typeof markingFix>;

export const proofReport = z
  .object({
    title: z.string(),
    part: z.object({ ids: z.array(z.string()).readonly(), name: z.string() }),
    bars: z.int(),
    markings: z.int().meta({ description: 'How many pedal markings the file has.' }),
    notesChecked: z
      .int()
      .meta({ description: 'How many times a note needed a pedal position, counting repeats.' }),
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
          description: 'Whether it is certain that no fewer changes to single pedals would do.',
        }),
        faultsLeft: z.int().meta({
          description: 'How many faults are left that no marking can fix, or for which no fix was found.',
        }),
      })
      .meta({
        id: 'MarkingRepair',
        description:
          'The fewest edits after which every note finds its pedal and the feet have time. The endpoint gives back the file with all of them made if you ask for a score format.',
      }),
    remarks: z.array(remark).readonly(),
  })
  .meta({
    id: 'ProofReport',
    description: 'What goes wrong if the player follows the markings of the file.',
  });

export type ProofReport = z.infer<typeof proofReport>;
