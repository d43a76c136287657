import * as z from 'zod';
import { GRADES, TUNE_SORTS } from '../../../engine/index.ts';
import { SET_MUSIC } from '../../../render/pure.ts';
import { compareOptions } from './comparison.ts';

export const tunesOptions = compareOptions
  .extend({
    only: z
      .string()
      .max(40_000)
      .exactOptional()
      .meta({
        description: 'Numbers of the tunes, with commas between them. All if not given.',
        examples: ['3,7,12'],
      }),
    sort: z.enum(TUNE_SORTS).exactOptional().meta({
      description: 'The order of the tunes: as in the file, or by what they ask of the player.',
      default: 'file',
    }),
    playable: z
      .boolean()
      .exactOptional()
      .meta({ description: 'Only tunes that are playable throughout.', default: false }),
    asTuned: z
      .boolean()
      .exactOptional()
      .meta({ description: 'Only tunes for which no string is retuned.', default: false }),
    mostChanges: z
      .int()
      .min(0)
      .max(9999)
      .exactOptional()
      .meta({ description: 'Only tunes with no more lever changes than this.' }),
    set: z.boolean().exactOptional().meta({
      description:
        'The order of the tunes that needs the fewest lever changes between them: of up to 12 in one tuning.',
      default: false,
    }),
    music: z.enum(SET_MUSIC).exactOptional().meta({
      description:
        'What of its tunes a set holds after its table, for application/pdf: nothing, the line with the first bars of each, or their pages.',
      default: 'none',
    }),
  })
  .meta({ id: 'TunesOptions', description: 'Which tunes are listed, for which harp, and in which order.' });

export type TunesChoice = z.infer<typeof tunesOptions>;

const pitches = (description: string) => z.array(z.string()).readonly().meta({ description });

const tune = z
  .object({
    file: z.string(),
    number: z.string().meta({ description: 'Number in the tune book; empty for other files.' }),
    title: z.string(),
    bars: z.int(),
    keyFifths: z.int().meta({
      description:
        'The key signature at the beginning: a positive number of sharps or a negative number of flats.',
    }),
    keyName: z.string().meta({
      description:
        'The key at the beginning, with the mode that the file states, else as the last bass note tells.',
      examples: ['G minor'],
    }),
    tuning: z.string().meta({ examples: ['E♭ major'] }),
    retuned: pitches(
      'Strings to retune before the tune, as they are tuned then: all of a letter as “all E♮”, a single one as “E♮5”.',
    ),
    leversUp: pitches('Levers that are up before the start, as the pitches that their strings then sound.'),
    changes: z.int().meta({ description: 'How many lever changes there are during the tune.' }),
    playable: z.boolean(),
    stops: z.int().meta({ description: 'How many places are not playable.' }),
    grade: z.enum(GRADES).meta({ description: 'How hard it is.' }),
    betterKeys: z
      .array(z.object({ semitones: z.int(), keyFifths: z.int(), keyName: z.string(), changes: z.int() }))
      .readonly()
      .meta({
        description:
          'Keys that suit the harp better, the best first; none are looked for unless maxSemitones is given.',
      }),
  })
  .meta({ id: 'RatedTune', description: 'What one tune asks of the levers.' });

const breakChange = z.object({
  string: z.string().meta({ examples: ['F4'] }),
  up: z.boolean(),
  pitch: z.string().meta({ description: 'What the string then gives.', examples: ['F♯4'] }),
});

export const tunesReport = z
  .object({
    tunes: z.array(tune).readonly(),
    set: z
      .object({
        order: z
          .array(z.int())
          .readonly()
          .meta({ description: 'Indices into tunes, in the order of playing.' }),
        breaks: z
          .array(z.array(breakChange).readonly())
          .readonly()
          .meta({ description: 'What to set before each; before the first, the levers that are up.' }),
        changes: z.int().meta({ description: 'How many levers are set between the tunes.' }),
      })
      .nullable()
      .meta({
        description:
          'The order with the fewest lever changes between the tunes; null where none was asked for.',
      }),
    together: z.array(z.array(z.int()).readonly()).readonly().meta({
      description:
        'Tunes that can be played one after the other with nothing set and nothing retuned: groups of indices into tunes, the largest first.',
    }),
    failures: z.array(z.string()).meta({ description: 'Tunes that could not be read, in sentences.' }),
  })
  .meta({ id: 'TunesReport', description: 'The table of a tune book.' });

export type TunesReport = z.infer<typeof tunesReport>;
