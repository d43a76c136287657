import * as z from 'zod';
import { BEAT_TEXT, LETTERS, POSITION_NAMES, SEVERITIES, SEVERITY_WORDS } from '../../engine/index.ts';

/** What requests and answers are made of: each with the sentence that the description of the API gives it. */

export const scoreTime = z
  .string()
  .regex(BEAT_TEXT)
  .meta({
    id: 'ScoreTime',
    description:
      'A time in the score, in quarter notes from its start, counting each printed bar once. A whole number or a fraction, as text.',
    examples: ['12', '7/2'],
  });

/** The printed number stands beside it as `bar`. */
export const barIndex = z.int().min(0).meta({
  description:
    'Which printed bar of the score, counting from 0: the first bar is 0, whatever number is printed. Decisions name bars so.',
});

/** Beside `bar`: what sentences name it by. */
export const barName = z.string().meta({
  description:
    'How people are told of the bar: its printed number, behind that of its movement where a score has several whose bars are numbered anew.',
  examples: ['12', 'II 12'],
});

export const barNumber = z.string().meta({ description: 'The printed number of the bar.', examples: ['12'] });

export const beat = z
  .string()
  .regex(BEAT_TEXT)
  .meta({
    id: 'Beat',
    description:
      'A beat of the bar, counting from 1 in beats of the time signature. A whole number or a fraction, as text.',
    examples: ['1', '5/2'],
  });

export const letter = z.enum(LETTERS).meta({ id: 'Pedal', description: 'The letter of a pedal.' });

export const foot = z.enum(['left', 'right']);

export const hand = z.enum(['left', 'right']);

export const leverPosition = z
  .enum(['down', 'up'])
  .meta({ id: 'LeverPosition', description: 'A lever that is up raises its string by a semitone.' });

export const positionName = z.enum(POSITION_NAMES).meta({
  id: 'Position',
  description: 'Where a pedal stands: flat is the top notch, natural the middle, sharp the bottom.',
});

export const settingText = z.string().meta({
  id: 'Setting',
  description: 'Where all seven pedals stand, in note names. Left foot before the bar, right foot after it.',
  examples: ['D♮ C♯ B♭ | E♮ F♯ G♮ A♭'],
});

export const severity = z.enum(SEVERITIES).meta({
  id: 'Severity',
  description: `${SEVERITIES.map((each) => `${each}: ${SEVERITY_WORDS[each].meaning}`).join('; ')}.`,
});

export const stringName = z
  .string()
  .regex(/^[A-G][0-9]$/)
  .meta({ id: 'String', description: 'The letter and octave of a string.', examples: ['C1', 'G7'] });

export const partSummary = z
  .object({ id: z.string(), name: z.string(), staves: z.int(), notes: z.int() })
  .meta({ id: 'PartSummary', description: 'One part of the score.' });
