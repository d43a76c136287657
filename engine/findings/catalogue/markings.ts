import type { Foot } from '../../harp/setting.ts';
import type { Letter, Pitch } from '../../music/pitch.ts';
import { listNames } from '../../words/lists.ts';
import { nameOrdinal } from '../../words/ordinal.ts';
import { ENGLISH_NAMES, type NoteNames, type PedalAt } from '../note-names.ts';
import { type MarkingEntries, nameTextPlace, type TextPlace } from './entry.ts';

/** What proofreading finds: what the markings in a file lead to when they are played. */
export const MARKING_FINDINGS = {
  'no-markings': {
    severity: 'warn',
    harps: ['pedal'],
    fixSought: false,
    title: 'No pedal markings',
    when: 'The file has no pedal markings to proofread.',
    sentence: (_facts: Record<string, never>) =>
      'The part has no pedal markings, so there is nothing to proofread.',
  },
  'words-not-understood': {
    severity: 'warn',
    harps: ['pedal'],
    fixSought: false,
    title: 'Words not understood',
    when: 'Words near the harp seem to name pedals, but cannot be read as a marking.',
    sentence: ({ words }: { words: string }) =>
      `The words “${words}” seem to name pedals, but it is not clear which.`,
  },
  'notes-before-marking': {
    severity: 'warn',
    harps: ['pedal'],
    fixSought: true,
    title: 'Pedal position unknown',
    when: 'Notes come before any marking says where their pedals stand.',
    sentence: ({ letters }: { letters: readonly Letter[] }, names: NoteNames = ENGLISH_NAMES) => {
      const stand = letters.length === 1 ? 'pedal stands' : 'pedals stand';
      return `The player cannot know where the ${listNames(letters.map(names.letter))} ${stand} here: no marking has said so.`;
    },
  },
  'note-not-served': {
    severity: 'stop',
    harps: ['pedal'],
    fixSought: true,
    title: 'Wrong pedal for a note',
    when: 'A pedal stands in the wrong position for a note, by the markings, or is moved while the note is held.',
    sentence: (facts: NoteFacts, names: NoteNames = ENGLISH_NAMES) =>
      facts.isHeld
        ? `${names.change(facts.stands)} is marked too early: ${nameNote(facts, names)}, which needs ${names.change(facts.needed)}, is still held.`
        : `${capitalise(nameNote(facts, names))} will sound wrong${nameTimes(facts.passes)}: ${nameFault(facts, names)}.`,
  },
  'repeat-lands-wrong': {
    severity: 'stop',
    harps: ['pedal'],
    fixSought: true,
    title: 'Wrong pedal after a repeat',
    when: 'A pedal stands in the wrong position for a note when the music returns to it.',
    sentence: (facts: MarkedNote & { readonly landingBar: string }, names: NoteNames = ENGLISH_NAMES) =>
      `When the music returns to bar ${facts.landingBar}, ${nameNote(facts, names)} will sound wrong: ${nameFault(facts, names)}.`,
  },
  'change-too-quick': {
    severity: 'stop',
    harps: ['pedal'],
    fixSought: true,
    title: 'Markings too close together',
    when: 'A foot cannot make all the marked changes in time (option `footRestSeconds`).',
    sentence: ({ foot, change, pitch, barName, lateSeconds }: QuickFacts, names: NoteNames = ENGLISH_NAMES) =>
      `The ${foot} foot cannot set ${names.change(change)} in time for ${names.pitch(pitch)} in bar ${barName}: after its previous move it is ${Math.max(0.01, lateSeconds).toFixed(2)} s short.`,
  },
  'markings-contradict': {
    severity: 'stop',
    harps: ['pedal'],
    fixSought: true,
    title: 'Markings disagree',
    when: 'Two markings at one place give one pedal different positions.',
    sentence: ({ first, second }: { first: PedalAt; second: PedalAt }, names: NoteNames = ENGLISH_NAMES) =>
      `The player cannot tell which to set: one marking here says ${names.change(first)}, another ${names.change(second)}.`,
  },
  'marking-needless': {
    severity: 'note',
    harps: ['pedal'],
    fixSought: true,
    title: 'Marking not needed',
    when: 'A change is marked that does nothing: the pedal stands there already, no note needs it, or it is printed twice at one place.',
    sentence: (
      { change, why }: { change: PedalAt; why: 'stands' | 'unasked' | 'twice' },
      names: NoteNames = ENGLISH_NAMES,
    ) => {
      switch (why) {
        case 'stands':
          return `${names.change(change)} is marked, but the pedal is already there.`;
        case 'unasked':
          return `${names.change(change)} is marked, but no note needs it before the pedal moves again.`;
        case 'twice':
          return `${names.change(change)} is marked twice at this place.`;
      }
    },
  },
  'marking-bends-string': {
    severity: 'note',
    harps: ['pedal'],
    fixSought: true,
    title: 'Marked while the string sounds',
    when: 'A change is marked while a held note of its letter still sounds, and there is time for it after that.',
    sentence: ({ change, pitch }: UneasyFacts, names: NoteNames = ENGLISH_NAMES) =>
      `${names.change(change)} is marked while ${names.pitch(pitch)} still sounds, and would bend it.`,
  },
  'marking-late': {
    severity: 'note',
    harps: ['pedal'],
    fixSought: true,
    title: 'Marked late for comfort',
    when: 'A change is marked hard upon the note that needs it, though its foot and its strings are free before.',
    sentence: ({ change, pitch }: UneasyFacts, names: NoteNames = ENGLISH_NAMES) =>
      `${names.change(change)} can be set in time for ${names.pitch(pitch)}, but is marked later than it need be.`,
  },
  'marking-early': {
    severity: 'note',
    harps: ['pedal'],
    fixSought: true,
    title: 'Marked early for comfort',
    when: 'A change is marked many bars before the note that needs it, so that it must be kept in mind.',
    sentence: ({ change, pitch }: UneasyFacts, names: NoteNames = ENGLISH_NAMES) =>
      `${names.change(change)} is right for ${names.pitch(pitch)}, but is marked long before it.`,
  },
  'glissando-unlike-key': {
    severity: 'note',
    harps: ['pedal'],
    fixSought: false,
    title: 'Glissando differs from the key',
    when: 'By the markings a glissando sounds different from its notes and the key signature.',
    sentence: (
      { sounding, expected }: { sounding: readonly PedalAt[]; expected: readonly PedalAt[] },
      names: NoteNames = ENGLISH_NAMES,
    ) =>
      `By the markings the glissando will sound ${listNames(sounding.map(names.change))}, but its notes and the key signature say ${listNames(expected.map(names.change))}.`,
  },
} as const satisfies MarkingEntries;

export interface UneasyFacts {
  readonly change: PedalAt;
  /** The note that sounds on, or that the change is for. */
  readonly pitch: Pitch;
}

export interface MarkedNote {
  readonly pitch: Pitch;
  /** The pedal is needed for a note that its ornament brings in. */
  readonly isOfOrnament: boolean;
  readonly needed: PedalAt;
  readonly stands: PedalAt;
  /** Where the marking stands that put the pedal there. */
  readonly markingPlace: TextPlace;
}

export type NoteFacts = MarkedNote & {
  /** The pedal is moved while the note is held. */
  readonly isHeld: boolean;
  /** On which passes it is wrong, from 1; none where it is so on all. */
  readonly passes: readonly number[];
};

export interface QuickFacts {
  readonly foot: Foot;
  readonly change: PedalAt;
  /** The note that the change is for, and its bar. */
  readonly pitch: Pitch;
  readonly barName: string;
  readonly lateSeconds: number;
}

const nameNote = ({ pitch, isOfOrnament }: MarkedNote, names: NoteNames): string =>
  `${isOfOrnament ? 'the ornament on ' : ''}${names.pitch(pitch)}`;

const nameFault = ({ needed, stands, markingPlace }: MarkedNote, names: NoteNames): string =>
  `it needs ${names.change(needed)}, but the pedal stands at ${names.change(stands)} by the marking at ${nameTextPlace(markingPlace)}`;

const capitalise = (text: string): string => `${text.slice(0, 1).toUpperCase()}${text.slice(1)}`;

const nameTimes = (passes: readonly number[]): string =>
  passes.length === 0 ? '' : ` the ${listNames(passes.map(nameOrdinal))} time`;
