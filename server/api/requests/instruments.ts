import * as z from 'zod';
import {
  checkProfile,
  HARP_NAMES,
  HARPS,
  type HarpProfile,
  nameString,
  problemMessage,
  stepOf,
  tuningName,
} from '../../../engine/index.ts';
import { stringName } from '../score-schemas.ts';

const KINDS = ['pedal', 'lever'] as const;

const ownShape = {
  name: z.string().min(1).max(100),
  lowest: stringName,
  highest: stringName,
  fixed: z
    .array(stringName)
    .max(70)
    .exactOptional()
    .meta({ description: 'Strings that no pedal or lever changes.' }),
};

/** A pedal harp need not say that it is one. */
const ownPedalHarp = z
  .strictObject({ kind: z.literal('pedal').exactOptional(), ...ownShape })
  .meta({ id: 'OwnPedalHarp', description: 'A pedal harp, described by its strings.' });

const ownLeverHarp = z
  .strictObject({
    kind: z.literal('lever'),
    ...ownShape,
    tuning: z
      .string()
      .max(100)
      .exactOptional()
      .meta({
        description: 'The tuning of the open strings as seven note names; E flat major if not given.',
        examples: ['C D Eb F G Ab Bb'],
      }),
    apart: z
      .array(z.string().max(10))
      .max(70)
      .exactOptional()
      .meta({
        description: 'Strings that are tuned differently from the others of their letter.',
        examples: [['F#4']],
      }),
  })
  .meta({ id: 'OwnLeverHarp', description: 'A lever harp, described by its strings.' });

const ownHarp = z.union([ownPedalHarp, ownLeverHarp]);

type OwnHarp = z.infer<typeof ownHarp>;

const checkOwn = (own: OwnHarp) => checkProfile({ kind: 'pedal', ...own });

const checkedHarp = ownHarp.superRefine((own, context) => {
  const checked = checkOwn(own);
  if (!checked.ok)
    context.addIssue({ code: 'custom', message: withoutPlace(problemMessage(checked.problem)) });
});

/** The sentence without its place: a harp in JSON has no lines. */
const withoutPlace = (message: string): string =>
  message.replace(' at line 1, column 1', '').replace(/\.$/, '');

export const instrumentChoice = z.union([z.enum(HARP_NAMES), checkedHarp]).meta({
  id: 'InstrumentChoice',
  description:
    'The harp: by its name, or described by its strings. If not given, the name and sound of the part, and lever markings in it, decide; a tune in ABC is for lever-harp-34.',
});

export type InstrumentChoice = z.infer<typeof instrumentChoice>;

export const profileOf = (choice: InstrumentChoice): HarpProfile => {
  if (typeof choice === 'string') return HARPS[choice];
  const checked = checkOwn(choice);
  if (!checked.ok) throw new Error(`${choice.name} has passed as a harp`);
  return checked.value;
};

export const instrumentList = z
  .object({
    instruments: z.array(
      z.object({
        id: z.enum(HARP_NAMES),
        kind: z.enum(KINDS),
        name: z.string(),
        strings: z.int(),
        lowest: stringName,
        highest: stringName,
        fixed: z.array(stringName).meta({ description: 'Strings that no pedal or lever changes.' }),
        tuning: z.string().nullable().meta({
          description: 'The usual tuning of the open strings of a lever harp; null for a pedal harp.',
        }),
      }),
    ),
  })
  .meta({ id: 'InstrumentList', description: 'The harps that can be chosen by name, the default first.' });

export const listInstruments = (): z.infer<typeof instrumentList> => ({
  instruments: HARP_NAMES.map((id) => {
    const profile: HarpProfile = HARPS[id];
    return {
      id,
      kind: profile.kind,
      name: profile.name,
      strings: stepOf(profile.highest) - stepOf(profile.lowest) + 1,
      lowest: nameString(profile.lowest),
      highest: nameString(profile.highest),
      fixed: profile.fixed.map(nameString),
      tuning: profile.kind === 'lever' ? tuningName(profile.tuning) : null,
    };
  }),
});
