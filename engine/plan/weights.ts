/**
 * What makes one moment for a move better than another. A move costs the sum of the terms that apply; the plan with
 * the smallest total wins. Only ratios matter; none of these values is published (common practice, no source).
 */
export const WEIGHTS = {
  /** Moving a pedal while a string of its letter sounds within its notated length: heard as a buzz or a slide. */
  stringSounding: 100,
  /** The same after the notated length, at most, fading over the string's natural ring: mostly damped by the hand. */
  stringRinging: 8,
  /** The move falls together with the note that needs it: the disc must be still before the finger plucks. */
  noLead: 12,
  /** Lead time shorter than `comfortableLeadSeconds`, at most, fading with the lead. */
  shortLead: 6,
  /** A move between the beats is harder to place and to read. */
  offBeat: 3,
  /** Per note plucked at the moment of the move: a rest is better than a chord. */
  perNotePlucked: 0.5,
  /** Per second between the move and the note that needs it: a marking far ahead is forgotten. */
  perSecondAhead: 1.5,
  /** From flat to sharp or back: two notches take longer; counted where less than a second is left. */
  twoNotchesInHaste: 4,
  /** A foot moves again before `footRestSeconds` have passed: above any sum of the others, so only where nothing else serves. */
  footTooBusy: 1_000_000,
} as const;

/** Clock times that the planner goes by, in seconds (common practice, no source). */
export const TIMES = {
  /** The least time between two moves of one foot. */
  footRestSeconds: 0.25,
  /** Lead time from which a move ahead of its note is comfortable. */
  comfortableLeadSeconds: 0.5,
  /** Time taken by one grace note. */
  graceSeconds: 0.1,
} as const;

/** How long an undamped string goes on sounding audibly, in seconds, by octave: long in the bass (common practice, no source). */
export const NATURAL_RING_SECONDS: Readonly<Record<number, number>> = {
  0: 5,
  1: 5,
  2: 4,
  3: 3,
  4: 2,
  5: 1.2,
  6: 0.7,
  7: 0.4,
};
