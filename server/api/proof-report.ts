import { z } from 'zod';
import { PROOF_FINDING_CODES } from '../../engine/index.ts';
import { findingCode, findingShape, remark } from './report.ts';
import { beat, letter, positionName, scoreTime, settingText } from './score-schemas.ts';

const placeShape = { at: scoreTime, bar: z.string(), beat };

const marking = z
  .int()
  .meta({ description: 'Index of a marking, counting all markings of the file in order from 0.' });

const markingFix = z
  .discriminatedUnion('kind', [
    z.object({ kind: z.literal('add'), pedal: letter, position: positionName, ...placeShape }),
    z.object({ kind: z.literal('add-setting'), setting: settingText, ...placeShape }),
    z.object({ kind: z.literal('alter'), marking, pedal: letter, position: positionName }),
    z.object({ kind: z.literal('move'), marking, pedal: letter, ...placeShape }),
    z.object({ kind: z.literal('remove'), marking, pedal: letter }),
  ])
  .meta({ id: 'MarkingFix', description: 'The smallest change to the markings that fixes a finding.' });

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
                'The change to a marking that fixes it without causing a new fault; null if there is none.',
            }),
            furtherFixes: z
              .array(markingFix)
              .readonly()
              .meta({ description: 'Further changes that must be made with it to fix the whole place.' }),
          })
          .meta({ id: 'ProofFinding' }),
      )
      .readonly(),
    remarks: z.array(remark).readonly(),
  })
  .meta({
    id: 'ProofReport',
    description: 'What goes wrong if the player follows the markings of the file.',
  });

export type ProofReport = z.infer<typeof proofReport>;
