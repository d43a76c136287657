/**
 * What makes one plan better than another, and the clock times it goes by. A user may override any of these by name.
 * Only the ratios of the prices matter; none of these values is published (common practice, no source).
 */
export const DEFAULT_WEIGHTS = {
  /** Price of a move: above any sum of the prices of where it is made, so that the fewest moves win. */
  move: 1000,
  /** Price of a respelled note where respelling is free: less than a move, more than any placing. */
  respelling: 300,
  /** Price of a move that the foot has no time for: above any number of moves that would avoid it. */
  footTooBusy: 1_000_000,
  /** Price of taking two neighbouring pedals together, where last resorts are allowed. */
  pedalsTogether: 100_000,
  /** Price of a move inside a span that the user forbade. */
  forbidden: 500_000,

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
  /** Neither a beat nor a note marks the moment: only for want of another. */
  betweenBeats: 15,
  /** The hands are playing: a rest is better. */
  handsBusy: 5,
  /** Per note plucked at the moment of the move: a single note is better than a chord. */
  perNotePlucked: 0.5,
  /** Per second between the move and the note that needs it, up to `farthestAheadSeconds`: a marking far ahead is forgotten. */
  perSecondAhead: 1,
  /** The opening setting has a pedal where the first note of its letter does not want it: it reads like a misprint. */
  startsElsewhere: 50,
  /** A move that only a jump back makes necessary, where the music lands: before the jump it is read once, in time. */
  restoring: 30,
  /** From flat to sharp or back: two notches take longer; counted where less than a second is left. */
  twoNotchesInHaste: 4,

  /** Seconds: the least time between two moves of one foot. */
  footRestSeconds: 0.25,
  /** Seconds: lead time from which a move ahead of its note is comfortable. */
  comfortableLeadSeconds: 0.5,
  /** Seconds: past this a marking is for the next section or the next time round, and no farther. */
  farthestAheadSeconds: 60,
} as const;

export type WeightName = keyof typeof DEFAULT_WEIGHTS;

export type Weights = Readonly<Record<WeightName, number>>;
