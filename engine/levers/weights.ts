/**
 * What makes one lever plan better than another, and the clock times it goes by; no user chooses among them. Only the
 * ratios of the prices matter; none of these values is published (common practice, no source).
 */
export const LEVER_WEIGHTS = {
  /** Price of a change: above any sum of the prices of where it is made, so that the fewest changes win. */
  change: 10_000,
  /** Price of a change for which the hand has no time: it plays, it sets another lever, or the string is plucked at once. */
  noTime: 10_000_000,
  /** Price of a note that fails because its string is asked for two pitches at once: as much as many changes. */
  noString: 200_000,
  /** Price of a letter whose strings are to be tuned otherwise than the harp is, where retuning is to be spared. */
  retunedLetter: 25_000,
  /** Price of a change that the right hand makes: a last resort where the left has no time. */
  rightHand: 1_000,

  /**
   * What each change of a lever costs more where its changes are not alike at all times of playing, which is harder to
   * read: four of them less than a change saved.
   */
  byTime: 2_000,

  /** Price of a change in a passage where the user allows none. */
  forbidden: 1_000_000,

  /** Moving a lever while its string sounds within its notated length: heard as a slide. */
  stringSounding: 100_000,
  /** Per second of natural ring left after the notated length: mostly damped by the hand. */
  perSecondRinging: 2,
  /** Lead time shorter than `comfortableLeadSeconds`, at most, fading with the lead. */
  shortLead: 6,
  /** A change between the beats is harder to place and to read. */
  offBeat: 3,
  /** Neither a beat nor a note marks the moment. */
  betweenBeats: 15,
  /** The other hand plucks at this moment: a moment without is easier. */
  otherHandPlucks: 2,
  /** Among quick notes, at most: in a rest and under a long note it fades, and is gone from `quietSeconds` on. */
  amongQuickNotes: 4,
  /** The hand has just played or is soon to play again, at most: gone where it is away for twice the time of a change. */
  shortAway: 2,
  /** A note that is played on a neighbouring string though its own could give it: several, before a change is dearer. */
  neighbourNote: 2_000,
  /** Price of a change while the string sounds, where tunings are compared, over and above the change: as much as a letter to retune and more. */
  bentString: 20_000,
  /** Per second between the change and the note that needs it: a marking far ahead is forgotten. */
  perSecondAhead: 1,

  /** Seconds: lead time from which a change ahead of its note is comfortable. */
  comfortableLeadSeconds: 0.5,
  /** Seconds between two plucks from which a change between them is at ease. */
  quietSeconds: 1,
} as const;

export type LeverWeightName = keyof typeof LEVER_WEIGHTS;

export type LeverWeights = Readonly<Record<LeverWeightName, number>>;
