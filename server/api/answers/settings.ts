import * as z from 'zod';
import {
  chromaOfNote,
  describeSetting,
  type FoundSetting,
  findShortestWay,
  formatChange,
  formatSetting,
  type HeldSound,
  type NeighbourSetting,
  type Setting,
  type SettingSearch,
  type SettingWay,
  type WantedSounds,
} from '../../../engine/index.ts';
import { fixesOptions, footRestShape } from '../requests/options.ts';
import { barName, barNumber, foot, settingText } from '../score-schemas.ts';

const wishShape = {
  to: z
    .string()
    .min(1)
    .max(200)
    .exactOptional()
    .meta({
      description: 'A setting to which the shortest way is wanted, in seven note names.',
      examples: ['D♮ C♯ B♭ | E♭ F♯ G♮ A♭'],
    }),
  sound: z
    .string()
    .min(1)
    .max(200)
    .exactOptional()
    .meta({
      description:
        'A chord, a scale or a list of notes for which the nearest settings are wanted; without a root, on every root.',
      examples: ['Eb dominant ninth', 'C whole tone', 'C Eb Gb A', 'whole-tone'],
    }),
};

export const settingOptions = z
  .strictObject({
    setting: z
      .string()
      .min(1)
      .max(200)
      .meta({
        description: 'Where the pedals stand: seven note names, with ♯ and ♭ or # and b.',
        examples: ['D C# Bb | E F# G Ab'],
      }),
    ...wishShape,
    ...footRestShape,
  })
  .meta({ id: 'SettingOptions' });

export const settingAtBarOptions = fixesOptions
  .extend({
    bar: z
      .string()
      .min(1)
      .max(50)
      .meta({
        description:
          'The printed number of a bar, behind that of its movement where several are numbered anew: the setting with which its first notes are played, read in printed order.',
        examples: ['12', 'II 12'],
      }),
    ...wishShape,
  })
  .meta({ id: 'SettingAtBarOptions' });

export type SettingChoice = z.infer<typeof settingOptions>;
export type SettingAtBarChoice = z.infer<typeof settingAtBarOptions>;

const strings = z.array(z.string()).readonly();

const doubled = z
  .array(z.array(z.string()).readonly())
  .readonly()
  .meta({ description: 'Pairs of strings that sound the same pitch.' });

const outOfOrder = z
  .boolean()
  .meta({ description: 'Whether a string sounds lower than the string below it.' });

const moves = z.int().meta({ description: 'How many pedals are moved.' });

const seconds = z.number().meta({
  description:
    'The clock time from the first move to the last, in seconds: a foot makes one move at a time, with its rest between.',
});

const change = z.object({ change: z.string(), foot }).meta({
  id: 'PedalChange',
  description: 'A pedal by where it goes, such as E♭, and the foot that moves it.',
});

const heldSound = z
  .object({
    kind: z.enum(['chord', 'scale']),
    name: z.string().meta({ examples: ['E♭ dominant ninth'] }),
    strings: strings.meta({ description: 'The strings that give it, from the root up.' }),
    whole: z
      .boolean()
      .meta({ description: 'Whether all strings belong to it, so that a glissando gives it.' }),
  })
  .meta({ id: 'HeldSound' });

const soundNames = z.array(z.string()).readonly();

const neighbour = z
  .object({
    change: z.string(),
    foot,
    setting: settingText,
    adds: strings.meta({ description: 'The string that is new; empty where its pitch sounded before.' }),
    takes: strings.meta({ description: 'The string that is gone; empty where its pitch still sounds.' }),
    doubles: doubled,
    gains: soundNames.meta({
      description: 'Chords and scales that it holds, and the setting before did not.',
    }),
    loses: soundNames.meta({ description: 'Chords and scales that are lost.' }),
  })
  .meta({ id: 'NeighbourSetting', description: 'What one move of one pedal makes of a setting.' });

const way = z
  .object({
    to: settingText,
    moves,
    seconds,
    steps: z
      .array(
        z.object({
          seconds: z.number().meta({ description: 'Since the first move.' }),
          changes: z.array(change).readonly(),
          setting: settingText,
        }),
      )
      .readonly(),
  })
  .meta({ id: 'SettingWay', description: 'The shortest way to another setting: no other is shorter.' });

const foundSetting = z
  .object({
    sound: z.string().meta({ description: 'The sound that it is for, with its root.' }),
    setting: settingText,
    moves,
    seconds,
    changes: z.array(change).readonly().meta({ description: 'What is moved, in this order.' }),
    doubled,
    outOfOrder,
    foreign: strings.meta({ description: 'Strings that sound and are not wanted.' }),
    missing: strings.meta({ description: 'Wanted notes that no string gives.' }),
  })
  .meta({ id: 'FoundSetting' });

const foundList = z.object({
  total: z.int(),
  settings: z.array(foundSetting).readonly().meta({ description: 'The nearest first, at most forty.' }),
});

const search = z
  .object({
    sound: z.string(),
    notes: strings.meta({
      description: 'The notes understood; none where no root is named and they depend on it.',
    }),
    whole: foundList.meta({ description: 'All strings belong to the sound: for a glissando.' }),
    holding: foundList.meta({ description: 'The sound is among the strings, and others are too.' }),
    nearest: foundList.meta({
      description: 'Those that come nearest, where no setting has all of the sound; else none.',
    }),
  })
  .meta({ id: 'SettingSearch', description: 'Settings for a sound, by how far they are.' });

export const settingReport = z
  .object({
    setting: settingText,
    bar: barNumber
      .nullable()
      .meta({ description: 'The bar at which the pedals stand so; null without a score.' }),
    barName: barName.nullable(),
    strings: strings.meta({ description: 'The seven strings of an octave, from C.' }),
    doubled,
    outOfOrder,
    sounds: z
      .array(heldSound)
      .readonly()
      .meta({ description: 'Every chord and scale that the strings give, those of all strings first.' }),
    neighbours: z.array(neighbour).readonly(),
    way: way.nullable(),
    search: search.nullable(),
  })
  .meta({ id: 'SettingReport', description: 'What a setting of the pedals holds, and what is near it.' });

export type SettingReport = z.infer<typeof settingReport>;

/** A bar by its printed number, and how people are told of it. */
export interface SettingPlace {
  readonly bar: string;
  readonly barName: string;
}

/** What was asked about a setting, read and found to be right. */
export interface SettingQuestion {
  readonly setting: Setting;
  /** The bar at which the pedals stand so. */
  readonly at: SettingPlace | null;
  readonly to: Setting | null;
  readonly wanted: WantedSounds | null;
  readonly footRestSeconds: number;
}

const MOST_FOUND = 40;

const reportSound = ({ kind, name, strings: given, whole }: HeldSound) => ({
  kind,
  name,
  strings: given,
  whole,
});

const reportNeighbour = ({ letter, to, setting, gains, loses, ...rest }: NeighbourSetting) => ({
  change: formatChange(letter, to),
  foot: rest.foot,
  setting: formatSetting(setting),
  adds: rest.adds,
  takes: rest.takes,
  doubles: rest.doubles,
  gains: gains.map(({ name }) => name),
  loses: loses.map(({ name }) => name),
});

const reportChanges = ({ moves: made }: SettingWay['steps'][number]) =>
  made.map(({ letter, to, foot: by }) => ({ change: formatChange(letter, to), foot: by }));

const reportWay = (to: Setting, { steps, ...length }: SettingWay) => ({
  to: formatSetting(to),
  moves: length.moves,
  seconds: length.seconds,
  steps: steps.map((step) => ({
    seconds: step.seconds,
    changes: reportChanges(step),
    setting: formatSetting(step.setting),
  })),
});

const reportFound = (found: readonly FoundSetting[], question: SettingQuestion) => ({
  total: found.length,
  settings: found.slice(0, MOST_FOUND).map(({ sound, setting, missing, ...rest }) => ({
    sound: sound.name,
    setting: formatSetting(setting),
    moves: rest.moves,
    seconds: rest.seconds,
    changes: findShortestWay(question.setting, setting, question.footRestSeconds).steps.flatMap(
      reportChanges,
    ),
    doubled: rest.doubled,
    outOfOrder: rest.outOfOrder,
    foreign: rest.foreign,
    missing: sound.notes.filter((note) => missing.includes(chromaOfNote(note))),
  })),
});

const reportSearch = (found: SettingSearch, question: SettingQuestion, { name, sounds }: WantedSounds) => ({
  sound: name,
  notes: sounds.length === 1 ? sounds[0]!.notes : [],
  whole: reportFound(found.whole, question),
  holding: reportFound(found.holding, question),
  nearest: reportFound(found.nearest, question),
});

/** All that is told of a setting. @param search where a sound was wanted */
export const reportSetting = (question: SettingQuestion, found: SettingSearch | null): SettingReport => {
  const { setting, at, to, wanted, footRestSeconds } = question;
  const contents = describeSetting(setting);
  return {
    setting: formatSetting(setting),
    bar: at?.bar ?? null,
    barName: at?.barName ?? null,
    strings: contents.strings,
    doubled: contents.doubled,
    outOfOrder: contents.outOfOrder,
    sounds: contents.sounds.map(reportSound),
    neighbours: contents.neighbours.map(reportNeighbour),
    way: to === null ? null : reportWay(to, findShortestWay(setting, to, footRestSeconds)),
    search: wanted === null || found === null ? null : reportSearch(found, question, wanted),
  };
};
