import type { Rational } from '../../music/rational.ts';
import type { Span } from '../../xml/tree.ts';

/** From `at` on, words say who of several players plays, on one staff or (null) on all. */
export interface SharingMark {
  readonly at: Rational;
  readonly bar: number;
  readonly staff: number | null;
  readonly span: Span;
  /** `together`: all of `players` play the same; `divided`: each has notes of their own; `one`: one plays alone. */
  readonly kind: 'together' | 'divided' | 'one';
  /** Numbers of the players, from 1; empty for all of them. */
  readonly players: readonly number[];
  readonly text: string;
}

/** One player's notes of a part that several share. */
export interface PlayerShare {
  /** From 1. */
  readonly player: number;
  /** Ids of the notes that only others play. */
  readonly others: ReadonlySet<string>;
  /** Indices of the bars with notes that nothing tells apart: the player has all of them. */
  readonly unclear: readonly number[];
}

/** Text that structures the page: where a full setting may be wanted. */
export interface Landmark {
  readonly at: Rational;
  readonly bar: number;
  readonly kind: 'rehearsal' | 'tempo';
  readonly text: string;
}

/** What is told of notes that a user has wait, where they are written. */
export interface DelayNotice {
  readonly at: Rational;
  readonly bar: number;
  readonly words: string;
}

/** A text or sign for every player. */
export interface ScoreText {
  readonly at: Rational;
  readonly bar: number;
  /** `gradual` changes the tempo step by step; `order` says how the music goes on, such as “attacca”; `delay` which notes a user has wait. */
  readonly kind: 'movement' | 'rehearsal' | 'tempo' | 'gradual' | 'order' | 'delay' | 'segno' | 'coda';
  /** Note values of metronome marks are characters of SMuFL's range “Metronome marks”; empty for signs. */
  readonly text: string;
  /** As the file says, or as is usual for its kind. */
  readonly bold: boolean;
}
