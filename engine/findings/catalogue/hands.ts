import type { StringRange } from '../../harp/profile.ts';
import { nameString } from '../../harp/scordatura.ts';
import type { Side } from '../../harp/side.ts';
import type { Pitch } from '../../music/pitch.ts';
import { FINGERS, HARMONIC_STRINGS } from '../hands/hand-limits.ts';
import { ENGLISH_NAMES, type NoteNames } from '../note-names.ts';
import type { HandEntries } from './entry.ts';

/** What is said of a hand that only the staff tells. */
const byStaff = (guessed: boolean): string => (guessed ? ' The hand is guessed from the staff.' : '');

/** The same of the hands in several places. */
const byStaves = (guessed: boolean): string => (guessed ? ' The hands are guessed from the staves.' : '');

const isGuess = ({ guessed }: { readonly guessed: boolean }): boolean => guessed;

/** What the hands cannot do, or hardly, on any harp. */
export const HAND_FINDINGS = {
  'string-for-both-hands': {
    severity: 'warn',
    harps: ['pedal', 'lever'],
    ofFastChange: null,
    overloadsHand: false,
    omittedIsHeard: true,
    title: 'One string for both hands',
    when: 'Notes of both hands ask for the same string at the same moment.',
    sentence: ({ string, guessed }: { string: Pitch; guessed: boolean }, names: NoteNames = ENGLISH_NAMES) =>
      `Both hands have to pluck the same string, ${names.pitch(string)}, at the same time.${byStaves(guessed)}`,
    isGuess,
    passage: (places: number, guessed: boolean) =>
      `Both hands have to pluck one string at the same time, in ${places} places.${byStaves(guessed)}`,
  },
  'too-many-notes-in-hand': {
    severity: 'warn',
    harps: ['pedal', 'lever'],
    ofFastChange: null,
    overloadsHand: true,
    omittedIsHeard: false,
    title: 'Too many notes for one hand',
    when: `A hand has more than ${FINGERS} strings at one moment, and both hands together cannot divide them: the little finger does not play.`,
    sentence: ({ hand, notes, guessed }: { hand: Side; notes: number; guessed: boolean }) =>
      `The ${hand} hand has ${notes} notes to play at once, but plays with only ${FINGERS} fingers.${byStaff(guessed)}`,
    isGuess,
    passage: (places: number, guessed: boolean) =>
      `One hand has more notes at once than its ${FINGERS} fingers can play, in ${places} chords.${byStaves(guessed)}`,
  },
  'stretch-too-wide': {
    severity: 'warn',
    harps: ['pedal', 'lever'],
    ofFastChange: null,
    overloadsHand: true,
    omittedIsHeard: false,
    title: 'Stretch too wide',
    when: 'A chord in one hand is wider than a tenth and not broken, and both hands together cannot divide it.',
    sentence: (
      { lowest, highest, guessed }: { lowest: Pitch; highest: Pitch; guessed: boolean },
      names: NoteNames = ENGLISH_NAMES,
    ) =>
      `The stretch from ${names.pitch(lowest)} to ${names.pitch(highest)} is too wide for one hand: it is more than a tenth.${byStaff(guessed)}`,
    isGuess,
    passage: (places: number, guessed: boolean) =>
      `${places} chords are too wide for one hand: more than a tenth.${byStaves(guessed)}`,
  },
  'string-restruck-fast': {
    severity: 'warn',
    harps: ['pedal', 'lever'],
    ofFastChange: 'string-restruck',
    overloadsHand: false,
    omittedIsHeard: false,
    title: 'String plucked again too soon',
    when: 'A string is plucked again before it can sound, or before its pitch can change.',
    sentence: ({ string, seconds, again }: RestruckFacts, names: NoteNames = ENGLISH_NAMES) => {
      const gap = `${seconds.toFixed(2)} s`;
      const name = `The string ${names.pitch(string)} is plucked again`;
      if (again === 'tremolo') return `${name} every ${gap}, before it can sound.`;
      if (again === 'same') return `${name} after only ${gap}, before it can sound.`;
      return `${name} after only ${gap} as ${names.pitch(again)}, with hardly any time to change its pitch.`;
    },
    passage: (places: number) =>
      `Strings are plucked again too soon ${places} times, before they can sound or change their pitch.`,
  },
  'harmonic-out-of-range': {
    severity: 'warn',
    harps: ['pedal', 'lever'],
    ofFastChange: null,
    overloadsHand: false,
    omittedIsHeard: false,
    title: 'Harmonic outside the useful range',
    when: `A harmonic is on a string below ${nameString(HARMONIC_STRINGS.lowest)} or above ${nameString(HARMONIC_STRINGS.highest)}.`,
    sentence: (
      { string, range: { lowest, highest } }: { string: Pitch; range: StringRange },
      names: NoteNames = ENGLISH_NAMES,
    ) =>
      `The harmonic on the string ${names.pitch(string)} will not sound well: the good strings for harmonics are ${names.string(lowest)} to ${names.string(highest)}.`,
    passage: (places: number) => `${places} harmonics lie outside the range where harmonics sound well.`,
  },
  'too-many-harmonics': {
    severity: 'warn',
    harps: ['pedal', 'lever'],
    ofFastChange: null,
    overloadsHand: true,
    omittedIsHeard: false,
    title: 'Too many harmonics for one hand',
    when: 'The right hand has more than one harmonic at one moment, or the left hand more than two.',
    sentence: ({ hand, harmonics, most, guessed }: HarmonicsFacts) =>
      `The ${hand} hand has ${harmonics} harmonics to play at once, but can play only ${most}.${byStaff(guessed)}`,
    isGuess,
    passage: (places: number, guessed: boolean) =>
      `One hand has more harmonics at once than it can play, in ${places} places.${byStaves(guessed)}`,
  },
} as const satisfies HandEntries;

export interface HarmonicsFacts {
  readonly hand: Side;
  readonly harmonics: number;
  readonly most: number;
  /** Only the staff tells which hand plays. */
  readonly guessed: boolean;
}

export interface RestruckFacts {
  readonly string: Pitch;
  /** From one pluck to the next. */
  readonly seconds: number;
  /** The pitch that the string is to have when it is plucked again, if that is another. */
  readonly again: Pitch | 'same' | 'tremolo';
}
