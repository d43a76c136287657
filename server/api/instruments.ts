import { z } from 'zod';
import { CONCERT_HARP, type HarpString, type PedalHarpProfile } from '../../engine/harp/profile.ts';
import { isLetter, stepOf } from '../../engine/music/pitch.ts';
import { stringName } from './score-values.ts';

/** The instruments that are known by a name, the default first. */
const NAMED = { 'concert-harp': CONCERT_HARP } as const satisfies Readonly<Record<string, PedalHarpProfile>>;

type InstrumentName = keyof typeof NAMED;

const INSTRUMENT_NAMES = Object.keys(NAMED) as [InstrumentName, ...InstrumentName[]];

const readString = (text: string): HarpString => {
  const letter = text.slice(0, 1);
  if (!isLetter(letter)) throw new Error(`${text} has passed as the name of a string`);
  return { letter, octave: Number(text.slice(1)) };
};

const ownInstrument = z
  .strictObject({
    name: z.string().min(1).max(100),
    lowest: stringName,
    highest: stringName,
    fixed: z.array(stringName).max(70).meta({ description: 'Strings that no pedal reaches.' }),
  })
  .refine(({ lowest, highest }) => stepOf(readString(lowest)) < stepOf(readString(highest)), {
    path: ['highest'],
    error: 'it lies above the lowest string',
  })
  .meta({ id: 'OwnInstrument', description: 'A pedal harp by its strings.' });

export const instrumentChoice = z.union([z.enum(INSTRUMENT_NAMES), ownInstrument]).meta({
  id: 'InstrumentChoice',
  description: 'The harp: one that is known by name, or one described by its strings.',
});

export type InstrumentChoice = z.infer<typeof instrumentChoice>;

export const profileOf = (choice: InstrumentChoice): PedalHarpProfile =>
  typeof choice === 'string'
    ? NAMED[choice]
    : {
        name: choice.name,
        lowest: readString(choice.lowest),
        highest: readString(choice.highest),
        fixed: choice.fixed.map(readString),
      };

export const instrumentList = z
  .object({
    instruments: z.array(
      z.object({
        id: z.enum(INSTRUMENT_NAMES),
        name: z.string(),
        strings: z.int(),
        lowest: stringName,
        highest: stringName,
        fixed: z.array(stringName),
      }),
    ),
  })
  .meta({ id: 'InstrumentList', description: 'The instruments that are known by name, the default first.' });

const nameString = ({ letter, octave }: HarpString): string => `${letter}${octave}`;

export const listInstruments = (): z.infer<typeof instrumentList> => ({
  instruments: INSTRUMENT_NAMES.map((id) => {
    const profile: PedalHarpProfile = NAMED[id];
    return {
      id,
      name: profile.name,
      strings: stepOf(profile.highest) - stepOf(profile.lowest) + 1,
      lowest: nameString(profile.lowest),
      highest: nameString(profile.highest),
      fixed: profile.fixed.map(nameString),
    };
  }),
});
