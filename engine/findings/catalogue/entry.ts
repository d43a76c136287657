import type { HarpKind } from '../../harp/harps.ts';
import { formatChange, type Position } from '../../harp/setting.ts';
import type { Letter, Pitch } from '../../music/pitch.ts';
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
  /** What goes wrong for the player at this place, as one sentence. */
  readonly sentence: (facts: Facts) => string;
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

/** A pedal in one position; a need is one too. */
export interface PedalAt {
  readonly letter: Letter;
  readonly position: Position;
}

/** Nothing but the pedal and its position, of what may say more. */
export const pedalAt = ({ letter, position }: PedalAt): PedalAt => ({ letter, position });

/** As a harpist writes it: `C♯`. */
export const nameChange = ({ letter, position }: PedalAt): string => formatChange(letter, position);

/** Where something is printed: the number of its bar, and its beat as it is written: `2½`. */
export interface TextPlace {
  readonly bar: string;
  readonly beat: string;
}

export const nameTextPlace = ({ bar, beat }: TextPlace): string => `bar ${bar}, beat ${beat}`;

/** A note in whatever octave. */
export type SpelledNote = Pick<Pitch, 'letter' | 'alter'>;

/** Moves that come too close together for comfort. */
export interface HurriedFacts {
  readonly moves: number;
  /** From the first of them to the last. */
  readonly seconds: number;
  readonly left: number;
  readonly right: number;
}
