import { z } from 'zod';
import { SEVERITIES, SEVERITY_WORDS } from '../../engine/findings/model.ts';
import { POSITIONS, type Position } from '../../engine/harp/setting.ts';
import { LETTERS } from '../../engine/music/pitch.ts';

/** What requests and answers are made of: each with the sentence that the description of the API gives it. */

export const scoreTime = z
  .string()
  .regex(/^\d{1,9}(\/[1-9]\d{0,5})?$/)
  .meta({
    id: 'ScoreTime',
    description:
      'A time in the score, in quarter notes from the first bar, each printed bar counted once: a whole number or a fraction as text, since decimals cannot hold a third.',
    examples: ['12', '7/2'],
  });

export const beat = z
  .string()
  .regex(/^\d{1,9}(\/[1-9]\d{0,5})?$/)
  .meta({
    id: 'Beat',
    description: 'A place in a bar, in beats of the meter, from 1: a whole number or a fraction as text.',
    examples: ['1', '5/2'],
  });

export const letter = z.enum(LETTERS).meta({ id: 'Pedal', description: 'A pedal by its letter.' });

export const foot = z.enum(['left', 'right']);

const POSITION_WORDS = ['flat', 'natural', 'sharp'] as const;

export const positionName = z
  .enum(POSITION_WORDS)
  .meta({ id: 'Position', description: 'Where a pedal stands: top, middle or bottom notch.' });

export type PositionName = z.infer<typeof positionName>;

export const nameOfPosition = (position: Position): PositionName =>
  POSITION_WORDS[POSITIONS.indexOf(position)]!;

export const settingText = z.string().meta({
  id: 'Setting',
  description: 'Where all seven pedals stand, in note names; the divider stands between the feet.',
  examples: ['D♮ C♯ B♭ | E♮ F♯ G♮ A♭'],
});

export const severity = z.enum(SEVERITIES).meta({
  id: 'Severity',
  description: `${SEVERITIES.map((each) => `${each}: ${SEVERITY_WORDS[each].meaning}`).join('; ')}.`,
});

export const stringName = z
  .string()
  .regex(/^[A-G][0-9]$/)
  .meta({ id: 'String', description: 'A string by its letter and octave.', examples: ['C1', 'G7'] });

export const partSummary = z
  .object({ id: z.string(), name: z.string(), staves: z.int(), notes: z.int() })
  .meta({ id: 'PartSummary', description: 'One part of the score.' });
