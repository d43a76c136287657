import { tellBySides } from '../../harp/by-sides.ts';
import type { OpenTuning } from '../../harp/open-tuning.ts';
import type { HarpString } from '../../harp/profile.ts';
import type { Side } from '../../harp/side.ts';
import type { Pitch } from '../../music/pitch.ts';
import { UNHURRIED_HANDS } from '../../time/hurried-stretches.ts';
import { listNames } from '../../words/lists.ts';
import { nameStretch } from '../../words/seconds.ts';
import { ENGLISH_NAMES, type NoteNames, type PedalAt, type SpelledNote } from '../note-names.ts';
import type { HurriedFacts, LeverEntries } from './entry.ts';

/** Nearer than this to its pluck a lever may not be all the way over (common practice, no source). */
export const SHORTEST_LEAD_SECONDS = 0.25;
/** A lever that is set earlier than this is forgotten in practice, or taken for another's (common practice, no source). */
export const FAR_AHEAD_SECONDS = 20;

/** What concerns the levers and the hands that set them. */
export const LEVER_FINDINGS = {
  'strings-to-retune': {
    severity: 'note',
    harps: ['lever'],
    title: 'Strings to tune before the piece',
    when: 'The open strings are tuned differently from how the harp is usually tuned.',
    sentence: ({ tuning, usual, changes }: RetuneFacts, names: NoteNames = ENGLISH_NAMES) =>
      `Before the piece, retune the open strings from ${names.tuning(usual)} to ${names.tuning(tuning)}: ${listNames(changes.map(names.change))}.`,
  },
  'no-string-in-tuning': {
    severity: 'stop',
    harps: ['lever'],
    failsBy: 'strings',
    ofFastChange: null,
    title: 'No string in this tuning',
    when: 'No string gives a note in the chosen tuning, whether its lever is up or down.',
    sentence: ({ note, tuning, notes }: MissingFacts, names: NoteNames = ENGLISH_NAMES) =>
      `In ${names.tuning(tuning)} tuning no string gives ${names.note(note)}, whether its lever is up or down${notes > 1 ? ` (${notes} notes)` : ''}.`,
  },
  'no-free-hand': {
    severity: 'stop',
    harps: ['lever'],
    failsBy: 'hands',
    ofFastChange: 'no-hand',
    title: 'No free hand for the lever',
    when: 'Both hands play while a lever has to be set, or its string is plucked again too soon.',
    sentence: (
      { pitch, why }: { pitch: Pitch; why: 'hands-play' | 'string-plucked' },
      names: NoteNames = ENGLISH_NAMES,
    ) =>
      why === 'hands-play'
        ? `Neither hand is free to set the lever for ${names.pitch(pitch)}.`
        : `There is no time to set the lever for ${names.pitch(pitch)} before its string is plucked.`,
    passage: (places: number) => `No hand is free for ${places} lever changes.`,
  },
  'hand-too-busy': {
    severity: 'stop',
    harps: ['lever'],
    failsBy: 'hands',
    ofFastChange: 'no-time',
    title: 'No time for the lever',
    when: 'A lever has to be set before the one before it is done (option `leverSeconds`).',
    sentence: ({ pitch }: { pitch: Pitch }, names: NoteNames = ENGLISH_NAMES) =>
      `There is no time to set the lever for ${names.pitch(pitch)}: another lever has only just been set.`,
    passage: (places: number) =>
      `There is no time for ${places} lever changes: each comes too soon after another.`,
  },
  'other-hand-taken': {
    severity: 'warn',
    harps: ['lever'],
    ofFastChange: 'other-side',
    refusesDecision: false,
    title: 'Lever for the other hand',
    when: 'The hand that plays sets a lever, usually the right, because the other has no time.',
    sentence: ({ pitch, hand }: { pitch: Pitch; hand: Side }, names: NoteNames = ENGLISH_NAMES) =>
      `The ${hand} hand has to set the lever for ${names.pitch(pitch)}, because the other hand has no time.`,
    passage: (places: number) =>
      `A hand that plays has to set ${places} levers, because the other hand has no time.`,
  },
  'lever-short-lead': {
    severity: 'warn',
    harps: ['lever'],
    ofFastChange: null,
    refusesDecision: false,
    title: 'Lever set just before its note',
    when: `One hand sets a lever and the other plucks its string less than ${SHORTEST_LEAD_SECONDS} s later.`,
    sentence: (
      { pitch, hand, seconds }: { pitch: Pitch; hand: Side; seconds: number },
      names: NoteNames = ENGLISH_NAMES,
    ) =>
      `The ${hand} hand sets the lever for ${names.pitch(pitch)} only ${seconds.toFixed(2)} s before its string is plucked: a lever that is not all the way over buzzes.`,
    passage: (places: number) => `${places} levers are set only just before their strings are plucked.`,
  },
  'lever-far-ahead': {
    severity: 'note',
    harps: ['lever'],
    title: 'Lever set long before its note',
    when: `A lever has to be set more than ${FAR_AHEAD_SECONDS} s before the note that needs it: no hand is free later.`,
    sentence: (
      { pitch, hand, seconds }: { pitch: Pitch; hand: Side; seconds: number },
      names: NoteNames = ENGLISH_NAMES,
    ) =>
      `The ${hand} hand sets the lever for ${names.pitch(pitch)} ${Math.round(seconds)} s before it is played.`,
    passage: (places: number) => `${places} levers are set long before their notes are played.`,
  },
  'hands-hurried-passage': {
    severity: 'warn',
    harps: ['lever'],
    ofFastChange: null,
    refusesDecision: false,
    title: 'Hands hurried at the levers',
    when: `A passage has more lever changes than hands comfortably make: in five seconds more than ${UNHURRIED_HANDS.both}, or more than ${UNHURRIED_HANDS.one} of one hand.`,
    sentence: ({ moves, seconds, left, right }: HurriedFacts) =>
      `The hands have to hurry: ${moves} lever changes ${nameStretch(seconds)}, ${tellBySides({ left, right }, { both: `${left} of the left hand and ${right} of the right`, allOf: (side) => `all of the ${side} hand` })}.`,
  },
  'lever-restored': {
    severity: 'note',
    harps: ['lever'],
    title: 'Set for the repeat',
    when: 'A lever is set only because the music comes back to this bar with the lever the other way.',
    sentence: ({ pitch, elsewhere }: { pitch: Pitch; elsewhere: Pitch }, names: NoteNames = ENGLISH_NAMES) =>
      `${names.pitch(pitch)} is for the repeat: the lever then stands at ${names.pitch(elsewhere)}.`,
  },
  'lever-pin-not-honoured': {
    severity: 'warn',
    harps: ['lever'],
    ofFastChange: null,
    refusesDecision: true,
    title: 'Decision not followed',
    when: 'A lever change or position that was pinned, or a passage without changes, cannot be kept.',
    sentence: (facts: LeverPinFacts, names: NoteNames = ENGLISH_NAMES) => {
      const lever = `${names.string(facts.string)} lever ${facts.to}`;
      switch (facts.why) {
        case 'no-changes-here':
          return `${lever} has to be set here, where you allow no changes.`;
        case 'note':
          return `${lever} cannot be pinned here: a note in bar ${facts.bar} needs it ${facts.to === 'up' ? 'down' : 'up'}.`;
        case 'pin':
          return `${lever} cannot be pinned here: it is already pinned ${facts.to === 'up' ? 'down' : 'up'}.`;
        case 'no-moment':
          return `${lever} cannot be pinned here: there is no note or beat at this place.`;
        case 'no-lever':
          return `${lever} cannot be pinned: this harp has no such lever.`;
      }
    },
  },
} as const satisfies LeverEntries;

export type LeverPinFacts = { readonly string: HarpString; readonly to: 'up' | 'down' } & (
  | { readonly why: 'no-changes-here' | 'pin' | 'no-moment' | 'no-lever' }
  | { readonly why: 'note'; readonly bar: string }
);

export interface RetuneFacts {
  readonly tuning: OpenTuning;
  readonly usual: OpenTuning;
  /** What is tuned differently, and to what. */
  readonly changes: readonly PedalAt[];
}

export interface MissingFacts {
  /** The name that no string gives, in whatever octave. */
  readonly note: SpelledNote;
  readonly tuning: OpenTuning;
  readonly notes: number;
}
