import type { LeverAt } from '../../harp/lever-name.ts';
import type { OpenTuning } from '../../harp/open-tuning.ts';
import type { Pitch } from '../../music/pitch.ts';
import { listNames } from '../../words/lists.ts';
import { nameOrdinal } from '../../words/ordinal.ts';
import { ENGLISH_NAMES, type NoteNames, type WrittenName } from '../note-names.ts';
import { type LeverMarkingEntries, nameTextPlace, type TextPlace } from './entry.ts';
import { FAR_AHEAD_SECONDS, SHORTEST_LEAD_SECONDS } from './levers.ts';

/** What proofreading of lever markings finds; strings are named by what they give: `F♯4`. */
export const LEVER_MARKING_FINDINGS = {
  'no-lever-markings': {
    severity: 'warn',
    harps: ['lever'],
    title: 'No lever markings',
    when: 'The file has no lever markings to proofread.',
    sentence: (_facts: Record<string, never>) =>
      'The part has no lever markings, so there is nothing to proofread.',
  },
  'lever-words-not-understood': {
    severity: 'warn',
    harps: ['lever'],
    title: 'Words about levers not understood',
    when: 'Words near the harp seem to tell of levers, but cannot be read as a marking.',
    sentence: ({ words }: { words: string }) =>
      `The words “${words}” seem to tell of levers, but it is not clear of which.`,
  },
  'lever-name-not-on-harp': {
    severity: 'stop',
    harps: ['lever'],
    title: 'No lever for a marking',
    when: 'A marking names a string that has no lever on this harp, or a note that its string does not give in this tuning.',
    sentence: (
      { name, why, tuning }: { name: WrittenName; why: 'string' | 'tuning'; tuning: OpenTuning },
      names: NoteNames = ENGLISH_NAMES,
    ) =>
      why === 'string'
        ? `${names.written(name)} is marked, but this harp has no lever on such a string.`
        : `${names.written(name)} is marked, but no lever gives it with the strings tuned to ${names.tuning(tuning)}.`,
  },
  'levers-not-told': {
    severity: 'note',
    harps: ['lever'],
    title: 'Levers before the start not told',
    when: 'No marking says how the levers stand before the start, so that the player has to set them by the key signature.',
    sentence: (_facts: Record<string, never>) =>
      'No marking says how the levers stand before the start: they are taken as the key signature asks.',
  },
  'lever-note-not-served': {
    severity: 'stop',
    harps: ['lever'],
    title: 'Wrong lever for a note',
    when: 'By the markings a lever stands wrong for a note, or is moved while the note is held.',
    sentence: (
      {
        pitch,
        isOfOrnament,
        isHeld,
        needed: wanted,
        stands: state,
        markingPlace,
        landingBar,
        passes,
      }: LeverNoteFacts,
      names: NoteNames = ENGLISH_NAMES,
    ) => {
      const [needed, stands] = [names.lever(wanted), names.lever(state)];
      const note = `${isOfOrnament ? 'the ornament on ' : ''}${names.pitch(pitch)}`;
      if (isHeld) return `${stands} is marked too early: ${note}, which needs ${needed}, is still held.`;
      const by =
        markingPlace === null ? 'before the start' : `by the marking at ${nameTextPlace(markingPlace)}`;
      const fault = `it needs ${needed}, but the lever is set for ${stands} ${by}`;
      if (landingBar !== null)
        return `When the music returns to bar ${landingBar}, ${note} will sound wrong: ${fault}.`;
      const times = passes.length === 0 ? '' : ` the ${listNames(passes.map(nameOrdinal))} time`;
      return `${note.slice(0, 1).toUpperCase()}${note.slice(1)} will sound wrong${times}: ${fault}.`;
    },
  },
  'lever-marking-without-time': {
    severity: 'stop',
    harps: ['lever'],
    title: 'No hand for a marked change',
    when: 'From where a lever change is marked until its note no hand is free, or each has just set another lever (option `leverSeconds`).',
    sentence: (
      {
        change,
        pitch,
        barName,
        why,
      }: {
        change: LeverAt;
        pitch: Pitch;
        barName: string;
        why: 'no-hand' | 'too-close';
      },
      names: NoteNames = ENGLISH_NAMES,
    ) =>
      why === 'no-hand'
        ? `No hand is free to set ${names.lever(change)} between its marking and ${names.pitch(pitch)} in bar ${barName}.`
        : `${names.lever(change)} is marked too close to another change: no hand can set both before ${names.pitch(pitch)} in bar ${barName}.`,
  },
  'lever-markings-contradict': {
    severity: 'stop',
    harps: ['lever'],
    title: 'Lever markings disagree',
    when: 'Two markings at one place say different things of one lever.',
    sentence: ({ first, second }: { first: LeverAt; second: LeverAt }, names: NoteNames = ENGLISH_NAMES) =>
      `The player cannot tell which to set: one marking here says ${names.lever(first)}, another ${names.lever(second)}.`,
  },
  'lever-marking-needless': {
    severity: 'note',
    harps: ['lever'],
    title: 'Lever marking not needed',
    when: 'A change is marked that does nothing: the lever stands so already, no note needs it, or it is printed twice at one place.',
    sentence: (
      { change, why }: { change: LeverAt; why: 'stands' | 'unasked' | 'twice' },
      names: NoteNames = ENGLISH_NAMES,
    ) => {
      switch (why) {
        case 'stands':
          return `${names.lever(change)} is marked, but the lever stands so already.`;
        case 'unasked':
          return `${names.lever(change)} is marked, but no note needs it before the lever moves again.`;
        case 'twice':
          return `${names.lever(change)} is marked twice at this place.`;
      }
    },
  },
  'lever-marking-bends-string': {
    severity: 'note',
    harps: ['lever'],
    title: 'Lever marked while the string sounds',
    when: 'A change is marked while its string still sounds, though a hand is free for it after that.',
    sentence: ({ change, pitch }: { change: LeverAt; pitch: Pitch }, names: NoteNames = ENGLISH_NAMES) =>
      `${names.lever(change)} is marked while ${names.pitch(pitch)} still sounds, and would bend it.`,
  },
  'lever-marking-late': {
    severity: 'note',
    harps: ['lever'],
    title: 'Lever marked late for comfort',
    when: `A change is marked less than ${SHORTEST_LEAD_SECONDS} s before its note, though its string has been silent and a hand was free before.`,
    sentence: ({ change, pitch }: { change: LeverAt; pitch: Pitch }, names: NoteNames = ENGLISH_NAMES) =>
      `${names.lever(change)} can be set in time for ${names.pitch(pitch)}, but is marked later than it need be.`,
  },
  'lever-marking-early': {
    severity: 'note',
    harps: ['lever'],
    title: 'Lever marked early for comfort',
    when: `A change is marked more than ${FAR_AHEAD_SECONDS} s before its note, though a hand is free later.`,
    sentence: ({ change, pitch }: { change: LeverAt; pitch: Pitch }, names: NoteNames = ENGLISH_NAMES) =>
      `${names.lever(change)} is marked long before ${names.pitch(pitch)}, so that the player has to keep it in mind.`,
  },
} as const satisfies LeverMarkingEntries;

export interface LeverNoteFacts {
  readonly pitch: Pitch;
  readonly isOfOrnament: boolean;
  /** The lever is moved while the note is held. */
  readonly isHeld: boolean;
  readonly needed: LeverAt;
  readonly stands: LeverAt;
  /** Where the marking stands that set the lever; null where none has. */
  readonly markingPlace: TextPlace | null;
  /** The bar to which the music returns, where that is what goes wrong. */
  readonly landingBar: string | null;
  /** On which passes it is wrong, from 1; none where it is so on all. */
  readonly passes: readonly number[];
}
