import type { StringRange } from '../../harp/profile.ts';
import { nameString } from '../../harp/scordatura.ts';
import { type Pitch, pitchName } from '../../music/pitch.ts';
import type { FindingEntries } from './entry.ts';

export type HandName = 'right' | 'left';

/** What the hands cannot do, or hardly, on any harp. */
export const HAND_FINDINGS = {
  'string-for-both-hands': {
    severity: 'warn',
    harps: ['pedal', 'lever'],
    title: 'One string for both hands',
    when: 'Notes of both staves ask for the same string at the same moment.',
    sentence: ({ string }: { string: Pitch }) =>
      `Both hands have to pluck the string ${pitchName(string)} at the same time.`,
    passage: (places: number) => `Both hands have to pluck one string at the same time, in ${places} places.`,
  },
  'too-many-notes-in-hand': {
    severity: 'warn',
    harps: ['pedal', 'lever'],
    title: 'Too many notes for one hand',
    when: 'One staff has more than four strings at one moment: the little finger does not play.',
    sentence: ({ hand, notes }: { hand: HandName; notes: number }) =>
      `The ${hand} hand has ${notes} notes at once, but only four fingers to play them.`,
    passage: (places: number) =>
      `One hand has more notes at once than its four fingers can play, in ${places} chords.`,
  },
  'stretch-too-wide': {
    severity: 'warn',
    harps: ['pedal', 'lever'],
    title: 'Stretch too wide',
    when: 'A chord on one staff is wider than a tenth and not broken.',
    sentence: ({ lowest, highest }: { lowest: Pitch; highest: Pitch }) =>
      `${pitchName(lowest)} to ${pitchName(highest)} is too wide for one hand: more than a tenth.`,
    passage: (places: number) => `${places} chords are too wide for one hand: more than a tenth.`,
  },
  'string-restruck-fast': {
    severity: 'warn',
    harps: ['pedal', 'lever'],
    title: 'String plucked again too soon',
    when: 'A string is plucked again before it can sound, or before its pitch can change.',
    sentence: ({ string, seconds, again }: RestruckFacts) => {
      const gap = `${seconds.toFixed(2)} s`;
      const name = `The string ${pitchName(string)} is plucked again`;
      if (again === 'tremolo') return `${name} every ${gap}, before it can sound.`;
      if (again === 'same') return `${name} after ${gap}, before it can sound.`;
      return `${name} after ${gap} as ${pitchName(again)}, with hardly any time to change its pitch.`;
    },
    passage: (places: number) =>
      `Strings are plucked again too soon ${places} times, before they can sound or change their pitch.`,
  },
  'harmonic-out-of-range': {
    severity: 'warn',
    harps: ['pedal', 'lever'],
    title: 'Harmonic outside the useful range',
    when: 'A harmonic is on a string below C3 or above A5.',
    sentence: ({ string, range: { lowest, highest } }: { string: Pitch; range: StringRange }) =>
      `The harmonic on the string ${pitchName(string)} lies outside the range where harmonics sound well, ${nameString(lowest)} to ${nameString(highest)}.`,
    passage: (places: number) => `${places} harmonics lie outside the range where harmonics sound well.`,
  },
  'too-many-harmonics': {
    severity: 'warn',
    harps: ['pedal', 'lever'],
    title: 'Too many harmonics for one hand',
    when: 'The right hand has more than one harmonic at one moment, or the left hand more than two.',
    sentence: ({ hand, harmonics, most }: { hand: HandName; harmonics: number; most: number }) =>
      `The ${hand} hand has ${harmonics} harmonics at once, but can play only ${most}.`,
    passage: (places: number) => `One hand has more harmonics at once than it can play, in ${places} places.`,
  },
} as const satisfies FindingEntries;

export interface RestruckFacts {
  readonly string: Pitch;
  /** From one pluck to the next. */
  readonly seconds: number;
  /** The pitch that the string is to have when it is plucked again, if that is another. */
  readonly again: Pitch | 'same' | 'tremolo';
}
