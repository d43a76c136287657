/**
 * What a division of a part between two players goes by, in the order of what counts: by our own judgement (no source).
 * Both parts are to be playable first of all; then hands are to reach their notes, feet to move seldom, and voices to stay
 * whole.
 */
export interface DivisionWeights {
  /** One pedal wanted in two positions at one moment, for each pedal, moment and player. */
  readonly clash: number;
  /** A moment whose notes two hands cannot take: more than four for a hand, or wider than a tenth. */
  readonly reach: number;
  /** Each pair of moves that one foot makes in a bar found to have no time for them. */
  readonly crowded: number;
  /** Each note of the second player: high where that is to be as little as can be. */
  readonly second: number;
  /** Each move of a pedal. */
  readonly move: number;
  /** A voice that goes from one player to the other at a bar line, under a slur. */
  readonly handOverInPhrase: number;
  /** The same where no slur crosses the bar line. */
  readonly handOver: number;
  /** A voice that is divided within a bar. */
  readonly broken: number;
  /** In each bar, each note by which one player has more than the other. */
  readonly unbalanced: number;
}

const SHARED: Omit<DivisionWeights, 'second' | 'unbalanced'> = {
  clash: 100_000,
  reach: 2_000,
  crowded: 300,
  move: 10,
  handOverInPhrase: 12,
  handOver: 6,
  broken: 4,
};

/** The aims that a part can be divided by. */
export const DIVISION_WEIGHTS = {
  /** Both have about as much to play. */
  balanced: { ...SHARED, second: 0, unbalanced: 0.25 },
  /** The first plays what one harp can, the second the rest; what hands do not reach can be broken, and is no reason. */
  least: { ...SHARED, reach: 0, second: 40, unbalanced: 0 },
} as const satisfies Readonly<Record<string, DivisionWeights>>;

/** One of the aims. */
export type DivisionAim = keyof typeof DIVISION_WEIGHTS;
