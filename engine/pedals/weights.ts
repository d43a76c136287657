import { defaultsOf } from '../options/choose.ts';
import { type Amount, amount } from '../options/describe-option.ts';

/** A price, and what speaks against a moment where it is charged. */
export interface Price extends Amount {
  readonly against: string;
}

/** Prices stay far below where sums of them lose their last digits; seconds below where plans take long. */
const MOST = { price: 10_000_000, seconds: 600 };

const price = (usual: number, description: string, against: string): Price => ({
  ...amount({
    label: null,
    description,
    unit: 'price',
    default: usual,
    least: 0,
    most: MOST.price,
    step: null,
    offered: null,
  }),
  against,
});

const seconds = (usual: number, description: string): Amount =>
  amount({
    label: null,
    description,
    unit: 'seconds',
    default: usual,
    least: 0,
    most: MOST.seconds,
    step: null,
    offered: null,
  });

/**
 * What makes one plan better than another. A user may override any of these by name. Only their ratios matter; none is
 * published (common practice, no source).
 */
export const PRICES = {
  // Above any sum of the prices of where a move is made, so that the fewest moves win.
  move: price(1000, 'Price of a move.', 'every move counts a little'),
  // Less than a move, more than any placing.
  respelling: price(
    300,
    'Price of a respelled note, where the spelling is free.',
    'a note is respelled for it',
  ),
  // Above any number of moves that would avoid it.
  footTooBusy: price(
    1_000_000,
    'Price of a move that the foot has no time for.',
    'the foot has no time for it',
  ),
  pedalsTogether: price(
    100_000,
    'Price of moving two neighbouring pedals at once with one foot, where that is allowed.',
    'one foot moves two pedals at once',
  ),
  forbidden: price(
    500_000,
    'Price of a move in a passage where no moves are allowed.',
    'you allow no moves here',
  ),

  // Heard as a buzz or a slide.
  stringSounding: price(
    100,
    'Price of moving a pedal during the written length of a note on one of its strings.',
    'a string of this letter is still sounding',
  ),
  // Mostly damped by the hand; fades over the string's natural ring.
  stringRinging: price(
    8,
    'Highest price of moving a pedal after that, while the string may still ring.',
    'a string of this letter may still ring',
  ),
  // The disc must be still before the finger plucks.
  noLead: price(
    12,
    'Price of a move at the same moment as the note that needs it.',
    'it comes at the same moment as the note that needs it',
  ),
  // Fades with the lead, up to `comfortableLeadSeconds`.
  shortLead: price(
    6,
    'Highest price of a move shortly before its note.',
    'little time before the note that needs it',
  ),
  // Harder to place and to read.
  offBeat: price(3, 'Price of a move between the beats.', 'it falls between the beats'),
  // Only for want of another moment.
  betweenBeats: price(
    15,
    'Price of a move at a moment with neither a beat nor a note.',
    'there is no beat or note here to move on',
  ),
  // A rest is better.
  handsBusy: price(5, 'Price of a move while the hands are playing.', 'the hands are playing'),
  // A single note is better than a chord.
  perNotePlucked: price(
    0.5,
    'Price of a move for each note that is plucked at its moment.',
    'notes are plucked at this moment',
  ),
  // Up to `farthestAheadSeconds`: a marking far ahead is forgotten.
  perSecondAhead: price(
    1,
    'Price of a move for each second that it comes before its note.',
    'it comes well before its note',
  ),
  // It reads like a misprint.
  startsElsewhere: price(
    50,
    'Price of a pedal that the opening setting puts elsewhere than its first note needs it.',
    'the piece begins with the pedal elsewhere',
  ),
  // Where the music lands: before the jump it is read once, in time.
  restoring: price(
    30,
    'Price of a move that is needed only when the music returns to an earlier bar.',
    'it is needed only when the music returns here',
  ),
  // Two notches take longer.
  twoNotchesInHaste: price(
    4,
    'Price of a move from flat to sharp, or back, with less than a second to make it.',
    'two notches with little time',
  ),
} as const;

/** The prices, and the clock times that a plan goes by; none is published either (common practice, no source). */
export const OPEN_WEIGHTS = {
  ...PRICES,
  comfortableLeadSeconds: seconds(0.5, 'How long before its note a move is early enough.'),
  // Past this a marking is for the next section or the next time round.
  farthestAheadSeconds: seconds(
    60,
    'Time before its note beyond which a move costs no more for being early.',
  ),
} as const;

/** The rest that a foot needs has an option of its own. */
export const FOOT_REST = amount({
  label: 'Time between moves of a foot',
  description: 'The least time between two moves of one foot.',
  unit: 'seconds',
  default: 0.25,
  least: 0,
  most: 10,
  step: null,
  offered: { values: [0.1, 0.15, 0.25, 0.4, 0.6, 1], words: '{}' },
});

export type WeightName = keyof typeof OPEN_WEIGHTS | 'footRestSeconds';

export type Weights = Readonly<Record<WeightName, number>>;

export const DEFAULT_WEIGHTS: Weights = { ...defaultsOf(OPEN_WEIGHTS), footRestSeconds: FOOT_REST.default };
