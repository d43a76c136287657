import { z } from 'zod';
import { PROOF_FINDING_CODES } from '../../engine/findings/catalogue.ts';
import { findingCode, findingShape, remark } from './report.ts';
import { beat, letter, positionName, scoreTime, settingText } from './score-values.ts';

const placeShape = { at: scoreTime, bar: z.string(), beat };

const marking = z.int().meta({ description: 'Index of a marking of the file, in the order of the file.' });

const mend = z
  .discriminatedUnion('kind', [
    z.object({ kind: z.literal('add'), pedal: letter, position: positionName, ...placeShape }),
    z.object({ kind: z.literal('add-setting'), setting: settingText, ...placeShape }),
    z.object({ kind: z.literal('alter'), marking, pedal: letter, position: positionName }),
    z.object({ kind: z.literal('move'), marking, pedal: letter, ...placeShape }),
    z.object({ kind: z.literal('remove'), marking, pedal: letter }),
  ])
  .meta({ id: 'Mend', description: 'The smallest change to the markings that mends a finding.' });

export type ReportedMend = z.infer<typeof mend>;

export const proofReport = z
  .object({
    title: z.string(),
    part: z.object({ ids: z.array(z.string()).readonly(), name: z.string() }),
    bars: z.int(),
    markings: z.int().meta({ description: 'How many pedal markings the file holds.' }),
    needsPlayed: z.int().meta({ description: 'Needs of notes that were played, every pass counted.' }),
    clean: z.boolean().meta({ description: 'No finding is worse than a note.' }),
    findings: z
      .array(
        z
          .object({
            code: findingCode(PROOF_FINDING_CODES),
            ...findingShape,
            mend: mend.nullable().meta({
              description: 'Null where no change of a marking mends it. Made alone, it leaves no new fault.',
            }),
            besides: z
              .array(mend)
              .readonly()
              .meta({ description: 'Changes to make with it, without which it mends only a part.' }),
          })
          .meta({ id: 'ProofFinding' }),
      )
      .readonly(),
    remarks: z.array(remark).readonly(),
  })
  .meta({ id: 'ProofReport', description: 'What the markings of a file lead to when they are played.' });

export type ProofReport = z.infer<typeof proofReport>;
