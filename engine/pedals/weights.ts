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
  move: price(1000, 'Price of a move.', 'it is a move'),
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
    'Price of taking two neighbouring pedals together, where that is allowed.',
    'one foot takes two pedals together',
  ),
  forbidden: price(
    500_000,
    'Price of a move inside a span that is forbidden to moves.',
    'it falls where moves are forbidden',
  ),

  // Heard as a buzz or a slide.
  stringSounding: price(
    100,
    'Price of moving a pedal while a string of its letter sounds as long as it is written.',
    'a string of this letter is still sounding',
  ),
  // Mostly damped by the hand; fades over the string's natural ring.
  stringRinging: price(
    8,
    'Price of the same after that, at most, while the string still rings.',
    'a string of this letter may still ring',
  ),
  // The disc must be still before the finger plucks.
  noLead: price(
    12,
    'Price of a move that falls together with the note that needs it.',
    'it falls together with the note that needs it',
  ),
  // Fades with the lead, up to `comfortableLeadSeconds`.
  shortLead: price(
    6,
    'Price of a move shortly before its note, at most.',
    'little time before the note that needs it',
  ),
  // Harder to place and to read.
  offBeat: price(3, 'Price of a move between the beats.', 'it falls between the beats'),
  // Only for want of another moment.
  betweenBeats: price(
    15,
    'Price of a move where neither a beat nor a note marks the moment.',
    'neither a beat nor a note marks the moment',
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
    'it is some way ahead of its note',
  ),
  // It reads like a misprint.
  startsElsewhere: price(
    50,
    'Price of an opening setting with a pedal where its first note does not want it.',
    'the piece begins with the pedal elsewhere',
  ),
  // Where the music lands: before the jump it is read once, in time.
  restoring: price(
    30,
    'Price of a move that only a jump back makes necessary.',
    'it brings the pedal back where the music lands again',
  ),
  // Two notches take longer.
  twoNotchesInHaste: price(
    4,
    'Price of a move from flat to sharp, or back, with less than a second left.',
    'two notches in little time',
  ),
} as const;

/** The prices, and the clock times that a plan goes by; none is published either (common practice, no source). */
export const OPEN_WEIGHTS = {
  ...PRICES,
  comfortableLeadSeconds: seconds(0.5, 'Time before its note from which a move comes early enough.'),
  // Past this a marking is for the next section or the next time round.
  farthestAheadSeconds: seconds(60, 'Time before its note past which a move counts as no farther ahead.'),
} as const;

/** The rest that a foot needs has an option of its own. */
export const FOOT_REST = amount({
  label: 'A foot needs',
  description: 'The least time between two moves of one foot.',
  unit: 'seconds',
  default: 0.25,
  least: 0,
  most: 10,
  step: null,
  offered: { values: [0.1, 0.15, 0.25, 0.4, 0.6, 1], words: '{} between moves' },
});

export type WeightName = keyof typeof OPEN_WEIGHTS | 'footRestSeconds';

export type Weights = Readonly<Record<WeightName, number>>;

export const DEFAULT_WEIGHTS: Weights = { ...defaultsOf(OPEN_WEIGHTS), footRestSeconds: FOOT_REST.default };
