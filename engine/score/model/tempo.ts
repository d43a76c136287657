import type { Rational } from '../../music/rational.ts';

export interface TempoMark {
  readonly at: Rational;
  readonly quartersPerMinute: number;
  /** Whether a figure is printed (`metronome`), or else the file has one for playing (`sound`), or none (`assumed`). */
  readonly origin: 'sound' | 'metronome' | 'assumed';
}

/** A note that tempi are told in. */
export interface TempoUnit {
  /** As a sign of Unicode, with its dot. */
  readonly sign: string;
  /** By MusicXML's name. */
  readonly value: string;
  readonly dots: 0 | 1;
  readonly quarters: number;
}

/** From `at` on, a passage goes no faster than a user wants, or the score's own tempo holds again. */
export interface TempoNotice {
  readonly at: Rational;
  readonly bar: number;
  readonly kind: 'no-faster' | 'as-before';
  readonly quartersPerMinute: number;
  /** What the tempo is told in. */
  readonly unit: TempoUnit;
  /** What stands before the tempo; empty where the score's own holds again. */
  readonly words: string;
}
