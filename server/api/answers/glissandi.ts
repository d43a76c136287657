import * as z from 'zod';
import {
  chromaOfNote,
  formatChange,
  formatSetting,
  type GlissandoSetting,
  type GlissandoSettings,
  type WantedSounds,
} from '../../../engine/index.ts';
import { settingText } from '../score-schemas.ts';

export const glissandoOptions = z
  .strictObject({
    sound: z
      .string()
      .min(1)
      .max(200)
      .meta({
        description: 'A chord or a scale, whose root may be left out, or a list of notes.',
        examples: ['C whole tone', 'Eb9', 'C Eb Gb A', 'dim 7'],
      }),
    from: z
      .string()
      .min(1)
      .max(200)
      .exactOptional()
      .meta({
        description: 'The setting before the glissando: seven note names, with ♯ and ♭ or # and b.',
        examples: ['D C B | E F G A'],
      }),
  })
  .meta({ id: 'GlissandoOptions' });

export type GlissandoChoice = z.infer<typeof glissandoOptions>;

const noteNames = z.array(z.string()).readonly();

const glissandoSetting = z
  .object({
    sound: z.string().meta({ description: 'The sound that it is for, with its root.' }),
    setting: settingText,
    moves: z
      .int()
      .meta({ description: 'How many pedals to move from the setting before; 0 if none was given.' }),
    doubled: z
      .array(z.array(z.string()).readonly())
      .readonly()
      .meta({ description: 'Pairs of neighbouring strings that sound the same pitch.' }),
    outOfOrder: z.boolean().meta({ description: 'Whether a string sounds lower than the string below it.' }),
    missing: noteNames.meta({ description: 'The wanted notes that no string gives.' }),
    foreign: noteNames.meta({ description: 'The strings that sound and are not wanted.' }),
  })
  .meta({ id: 'GlissandoSetting' });

export const glissandoReport = z
  .object({
    sound: z.string(),
    notes: noteNames.meta({
      description:
        'The notes understood, real accidentals; none where no root is named and they depend on it.',
    }),
    pitchClasses: z.array(z.int()).readonly().meta({
      description:
        'The pitch classes asked for, in semitones above C; none where no root is named and they depend on it.',
    }),
    exact: z
      .array(glissandoSetting)
      .readonly()
      .meta({ description: 'Settings that give exactly this sound, those with the fewest moves first.' }),
    nearest: z.array(glissandoSetting).readonly().meta({
      description: 'The closest of the settings that do not give exactly this sound, the best first.',
    }),
  })
  .meta({ id: 'GlissandoReport', description: 'Settings for a glissando.' });

export type GlissandoReport = z.infer<typeof glissandoReport>;

const reportSetting = ({ sound, setting, missing, foreign, ...rest }: GlissandoSetting) => ({
  sound: sound.name,
  setting: formatSetting(setting),
  ...rest,
  missing: sound.notes.filter((note) => missing.includes(chromaOfNote(note))),
  foreign: foreign.map((letter) => formatChange(letter, setting[letter])),
});

export const reportGlissandi = (
  { name, sounds }: WantedSounds,
  answer: GlissandoSettings,
): GlissandoReport => {
  const [only, ...others] = sounds;
  const isOne = only !== undefined && others.length === 0;
  return {
    sound: name,
    notes: isOne ? only.notes : [],
    pitchClasses: isOne ? [...only.pitchClasses].sort((a, b) => a - b) : [],
    exact: answer.exact.map(reportSetting),
    nearest: answer.nearest.map(reportSetting),
  };
};
