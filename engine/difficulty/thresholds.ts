import type { HarpKind } from '../harp/harps.ts';

/** From which value on a measure makes a passage moderate, hard and very hard. */
export type Steps = readonly [moderate: number, hard: number, veryHard: number];

/** The thresholds of one harp. */
export interface Thresholds {
  /** Changes in the busiest ten seconds. */
  readonly mostInTenSeconds: Steps;
  /** Seconds between two changes of one foot or hand: hard is what lies below. */
  readonly shortestSpacing: Steps;
  /** Share of changes at the pluck, from 0 to 1, in passages of at least `FEW_CHANGES`. */
  readonly atThePluck: Steps;
  readonly stringsBent: Steps;
  /** Bars in which one hand has too much, as a share of the bars of the passage, from 0 to 1; see `FEW_OVERLOADED_BARS`. */
  readonly overloaded: Steps;
  readonly feetTogether: Steps;
  readonly notesPerSecond: Steps;
}

/** In fewer changes than these a share of them says nothing. */
export const FEW_CHANGES = 6;

/** Bars in which a hand has too much: so few can be left out or shared, and a passage is moderate at most for them. */
export const FEW_OVERLOADED_BARS = 1;

/** From so many changes a minute on they are not seldom, however short the passage: the figure stands beside the words. */
export const SELDOM_PER_MINUTE = 6;

/** What is as hard on either harp. */
const EITHER_HARP = {
  atThePluck: [0.25, 0.6, 0.9],
  stringsBent: [1, 3, 6],
  overloaded: [0.01, 0.25, 0.6],
  // The feet move together now and then in any part; often, both are needed at once again and again.
  feetTogether: [2, 5, 9],
  // Eight notes a second are semiquavers at 120 to the minute: a broken chord in one hand.
  notesPerSecond: [8, 12, 16],
} as const;

/** None of these is published (common practice, no source); each was tried on real parts, put in order by it. */
export const THRESHOLDS: Readonly<Record<HarpKind, Thresholds>> = {
  pedal: {
    ...EITHER_HARP,
    // A new key every ten seconds is ordinary; a move a second goes on without a rest for the mind.
    mostInTenSeconds: [3, 6, 10],
    // A foot lifts, finds the next pedal and presses: about half a second unhurried.
    shortestSpacing: [1.2, 0.6, 0.3],
  },
  lever: {
    ...EITHER_HARP,
    // A hand leaves the strings for each.
    mostInTenSeconds: [2, 4, 6],
    shortestSpacing: [3, 1.5, 0.8],
  },
};

/** A grade that a smaller share of the passages has counts for the part as the grade below it. */
export const RARE_SHARE = 0.1;
