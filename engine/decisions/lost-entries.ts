import { tellBeatText } from '../music/tell-beat.ts';
import type { Score } from '../score/model.ts';
import type { Place, PlacedPin, Work, WorkList } from './model.ts';

/** Why an entry of a work has no place in a score. */
export type Reason =
  | { readonly kind: 'no-bar' | 'no-beat' | 'ends-too-soon' | 'no-note' | 'on-slide' | 'no-moment' }
  /** `possible`: the strings that do give the pitch. */
  | { readonly kind: 'other-pitch'; readonly possible: readonly string[] };

/** Where an entry stands in a work. */
export interface EntryAddress {
  readonly list: WorkList;
  readonly index: number;
  /** The member of the entry that does not fit; null for the entry as a whole. */
  readonly field: string | null;
}

/** An entry of a work that has no place in the score. */
export interface LostEntry extends EntryAddress {
  /** What would have been right, as the end of a sentence. */
  readonly expected: string;
  /** For the user to read: what is set aside, and why. */
  readonly sentence: string;
}

export const loseEntry = (score: Score, work: Work, address: EntryAddress, reason: Reason): LostEntry => ({
  ...address,
  expected: expectedFor(score, reason),
  sentence: `${describeEntry(score, work, address)} is set aside: ${becauseOf(reason)}.`,
});

const expectedFor = (score: Score, reason: Reason): string => {
  switch (reason.kind) {
    case 'no-bar':
      return `the score has the bars 0 to ${score.bars.length - 1}`;
    case 'no-beat':
      return 'the beat lies within its bar, from 1';
    case 'ends-too-soon':
      return 'it lies behind the place in “from”';
    case 'no-note':
      return 'a note written for this string begins there';
    case 'on-slide':
      return 'a note that is not at either end of a slide on one string';
    case 'no-moment':
      return 'a note or a beat falls there';
    case 'other-pitch':
      return reason.possible.length === 0
        ? 'no string gives the pitch of this note'
        : `the string of the same pitch is ${reason.possible.join(' or ')}`;
  }
};

const becauseOf = (reason: Reason): string => {
  switch (reason.kind) {
    case 'no-bar':
      return 'the part has no such bar';
    case 'no-beat':
      return 'its bar has no such beat';
    case 'ends-too-soon':
      return 'it ends before it begins';
    case 'no-note':
      return 'no such note begins there';
    case 'on-slide':
      return 'the note is an end of a slide that stays on one string';
    case 'no-moment':
      return 'no note and no beat falls there';
    case 'other-pitch':
      return 'that string does not give the pitch of the note';
  }
};

const describeEntry = (score: Score, work: Work, { list, index }: EntryAddress): string => {
  switch (list) {
    case 'pins':
      return describePin(score, work.pins[index]!);
    case 'respell': {
      const entry = work.respell[index]!;
      return `The respelling of ${entry.pitch} as ${entry.to} ${whereIs(score, entry)}`;
    }
    case 'leaveOut': {
      const entry = work.leaveOut[index]!;
      return `The ${entry.pitch} left out ${whereIs(score, entry)}`;
    }
    case 'settingsAt': {
      const entry = work.settingsAt[index]!;
      return `The full setting ${entry.print ? 'put' : 'dropped'} ${whereIs(score, entry)}`;
    }
  }
};

const describePin = (score: Score, pin: PlacedPin): string => {
  switch (pin.kind) {
    case 'move':
      return `The move of the ${pin.pedal} pedal fixed ${whereIs(score, pin.at)}`;
    case 'position':
      return `The position of the ${pin.pedal} pedal fixed ${whereIs(score, pin.from)}`;
    case 'forbid':
      return `The span without moves that begins ${whereIs(score, pin.from)}`;
  }
};

/** A bar that is not there is told by its place among the bars. */
const whereIs = (score: Score, { bar, beat }: Place): string =>
  `in bar ${score.bars[bar]?.number ?? bar + 1}, beat ${tellBeatText(beat)}`;
