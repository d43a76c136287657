import type { HarpKind } from '../../harp/harps.ts';
import type { NoteNames } from '../note-names.ts';
import type { Severity } from '../severity.ts';

/** All that is known of one kind of finding before it is found anywhere. */
export interface FindingEntry<Facts> {
  readonly severity: Severity;
  /** The harps it concerns: on any other it cannot be told. */
  readonly harps: readonly HarpKind[];
  /** A heading for people. */
  readonly title: string;
  /** When it is told, as one sentence for the documentation. */
  readonly when: string;
  /** What goes wrong for the player at this place, as one sentence; its notes have English names if no others are given. */
  readonly sentence: (facts: Facts, names?: NoteNames) => string;
  /** Whether the hand that it is about is guessed; without it no hand is. */
  readonly isGuess?: (facts: Facts) => boolean;
  /**
   * What goes wrong in several places in a row, as one sentence; without it each place is told on its own.
   *
   * @param guessed whether a hand is guessed at one of them
   */
  readonly passage?: (places: number, guessed: boolean) => string;
}

/** Findings by code, each with facts of its own. */
export type FindingEntries = Readonly<Record<string, FindingEntry<never>>>;

/** Where something is printed: the number of its bar, and its beat as it is written: `2½`. */
export interface TextPlace {
  readonly bar: string;
  readonly beat: string;
}

export const nameTextPlace = ({ bar, beat }: TextPlace): string => `bar ${bar}, beat ${beat}`;

/** Moves that come too close together for comfort. */
export interface HurriedFacts {
  readonly moves: number;
  /** From the first of them to the last. */
  readonly seconds: number;
  readonly left: number;
  readonly right: number;
}
