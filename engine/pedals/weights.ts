import { LETTERS } from '../music/pitch.ts';
import { defaultsOf } from '../options/choose.ts';
import { type Amount, amount } from '../options/describe-option.ts';

/** A price, and what speaks against a moment where it is charged. */
export interface Price extends Amount {
  readonly against: string;
}

/**
 * Prices stay below where sums of them lose their last digits: `exactPrice` makes each a whole 1024th, and dozens of the
 * dearest stay exact. Seconds stay below where plans take long.
 */
const MOST = { price: 10_000_000, lastResort: 100_000_000_000, seconds: 600, spacing: 10 };

const price = (usual: number, description: string, against: string, most = MOST.price): Price => ({
  ...amount({
    label: null,
    description,
    unit: 'price',
    default: usual,
    least: 0,
    most,
    step: null,
    offered: null,
  }),
  against,
});

const seconds = (usual: number, description: string, most = MOST.seconds): Amount =>
  amount({
    label: null,
    description,
    unit: 'seconds',
    default: usual,
    least: 0,
    most,
    step: null,
    offered: null,
  });

/**
 * What makes one plan better than another. A user may override any of these by name. Only their ratios matter; none is
 * published (common practice, no source).
 *
 * The order of the goals, of which an earlier one is never given up for a later one: the fewest unmet needs (these are
 * no price: the planner never leaves more of them), moves without time, last resorts, moves, respelled notes, and last
 * the comfort of each move. Prices stand for that order up to these sizes: 100 last resorts weigh as a move without
 * time, 100 moves as a last resort, 20,000 respelled notes as a move; and the comfort of one move comes to less than
 * 500, so that of 2,000 moves of a foot does not weigh as one. Weights that a user gives are taken as they are.
 */
export const PRICES = {
  move: price(1_000_000, 'Price of a move.', 'every move counts a little'),
  respelling: price(
    50,
    'Price of a respelled note, where the spelling is free.',
    'a note is respelled for it',
  ),
  footTooBusy: price(
    10_000_000_000,
    'Price of a move that the foot has no time for.',
    'the foot has no time for it',
    MOST.lastResort,
  ),
  pedalsTogether: price(
    100_000_000,
    'Price of moving two neighbouring pedals at once with one foot, where that is allowed.',
    'one foot moves two pedals at once',
    MOST.lastResort,
  ),
  forbidden: price(
    100_000_000,
    'Price of a move in a passage where no moves are allowed.',
    'you allow no moves here',
    MOST.lastResort,
  ),

  // Heard as a buzz or a slide.
  stringSounding: price(
    100,
    'Price of moving a pedal during the written length of a note on one of its strings.',
    'a string of this letter is still sounding',
  ),
  // No hand can have stilled it yet; the sound fades, and the price with it.
  justPlucked: price(
    100,
    'Highest price of moving a pedal in the quarter of a second after a string of it was plucked, once its note is over.',
    'a string of this letter was plucked just before',
  ),
  // Mostly damped by the hand; fades over the string's natural ring.
  stringRinging: price(
    8,
    'Highest price of moving a pedal after that, while the string may still ring.',
    'a string of this letter may still ring',
  ),
  // The disc must be still before the finger plucks: dearer than any lead, so that even a note of a run before it is better.
  noLead: price(
    34,
    'Price of a move at the same moment as the note that needs it.',
    'it comes at the same moment as the note that needs it',
  ),
  // Fades with the lead, up to `comfortableLeadSeconds`; a lead of next to nothing is none.
  shortLead: price(
    30,
    'Highest price of a move shortly before its note.',
    'little time before the note that needs it',
  ),
  // Harder to place and to read.
  offBeat: price(
    4,
    'Price of a move between the beats, at half of one (in compound meters a third); elsewhere, as with the two that follow, two and a half times that.',
    'it falls between the counts',
  ),
  // Better than at the pluck; else only for want of another moment.
  betweenBeats: price(
    10,
    'Price of a move between the beats while notes are held and none is plucked.',
    'there is no count, note or rest here to move on',
  ),
  // A marking there stands at nothing that the player counts.
  betweenTupletNotes: price(
    28,
    'Price of a move at a part of a beat that the notes of this beat do not share, as half a beat among triplets.',
    'it falls between the notes of a tuplet',
  ),
  // There the foot has all the time; the marking stands at no sign, though.
  betweenBeatsOfRest: price(
    6,
    'Price of a move in a rest, at a moment between its beats.',
    'it falls between the counts of a rest',
  ),
  // A rest is better, and so is the end of a phrase: a slur that ends, a fermata, a breath mark, a caesura.
  handsBusy: price(
    5,
    'Price of a move while the hands are playing, unless a phrase ends there.',
    'the hands are playing',
  ),
  handsHolding: price(
    2,
    'Price of a move while notes are held and none is plucked, unless a phrase ends there.',
    'notes are held',
  ),
  // A single note is better than a chord; up to `MOST_PLUCKED_COUNTED`.
  perNotePlucked: price(
    2,
    'Price of a move for each note that is plucked at its moment, up to four.',
    'notes are plucked at this moment',
  ),
  // On a beat the run has a note to hold on to: between beats up to `MOST_INSIDE_RUN` times this, the faster the more.
  insideRun: price(
    6,
    'Price of a move while fast notes are plucked one after another; between beats up to twice that.',
    'it falls inside a run',
  ),
  // There is time for both moves, but none to spare; fades from `footRestSeconds` to `comfortableSpacingSeconds`.
  closeMoves: price(
    20,
    'Price of a move shortly after another of the same foot, at most.',
    'the same foot has moved shortly before',
  ),
  // Up to `farthestAheadSeconds`; in a rest for a new setting, up to where the music goes on.
  perSecondAhead: price(
    1,
    'Price of a move for each second that it comes before its note.',
    'it comes well before its note',
  ),
  // The same from `rememberedSeconds` on, for `FORGETTING_SECONDS`: a marking far ahead is forgotten.
  perSecondForgotten: price(
    25,
    'Price of a move for each further second that it comes before its note, from where a marking is forgotten.',
    'the marking may be forgotten before its note',
  ),
  // In a long rest, or one before another key, the player sets all pedals for what follows: see `findNewSettings`.
  missedRest: price(
    15,
    'Price of a move after a long rest, or one before another key, that belongs to the setting made in it.',
    'the rest before was the place for it',
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

/** What can speak against a moment. */
export type PriceName = keyof typeof PRICES;

/** The prices, and the clock times that a plan goes by; none is published either (common practice, no source). */
export const OPEN_WEIGHTS = {
  ...PRICES,
  comfortableLeadSeconds: seconds(0.5, 'How long before its note a move is early enough.'),
  comfortableSpacingSeconds: seconds(
    1.2,
    'Time between two moves of one foot from which they do not hinder each other.',
    MOST.spacing,
  ),
  rememberedSeconds: seconds(4, 'Time before its note up to which a marking is well remembered.'),
  // Past this a marking is for the next section or the next time round.
  farthestAheadSeconds: seconds(
    30,
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

/** So long after it was well remembered a marking is forgotten, and cannot be more so (common practice, no source). */
export const FORGETTING_SECONDS = 3;

/**
 * Of the notes at one moment no more than these count: a full chord on a beat is a better place for a marking than a
 * note inside a run beside it (common practice, no source).
 */
export const MOST_PLUCKED_COUNTED = 4;

/** How many times the price of a move inside a run can be charged, between the beats of a run of no time at all. */
export const MOST_INSIDE_RUN = 2;

/**
 * How many times the price of a move between the beats is charged where it is no half of one, in compound meters no third:
 * a marking at a quarter of a beat is read late, so that a beat is better even closer to the foot's next move.
 */
export const BETWEEN_DIVISIONS = 2.5;

/** Whether a move always weighs more than all that the comfort of so many moves can come to. */
export const putsMovesFirst = (weights: Weights, moves: number): boolean => {
  const { farthestAheadSeconds: farthest, perSecondAhead, perSecondForgotten } = weights;
  const ofOneMove =
    Math.max(2 * weights.stringSounding, weights.justPlucked + weights.stringRinging) +
    Math.max(
      weights.noLead,
      weights.shortLead + farthest * perSecondAhead + FORGETTING_SECONDS * perSecondForgotten,
    ) +
    Math.max(
      BETWEEN_DIVISIONS * weights.offBeat,
      weights.betweenBeats,
      weights.betweenTupletNotes,
      weights.betweenBeatsOfRest,
    ) +
    weights.handsBusy +
    MOST_PLUCKED_COUNTED * weights.perNotePlucked +
    MOST_INSIDE_RUN * weights.insideRun +
    weights.closeMoves +
    weights.missedRest +
    weights.restoring +
    weights.twoNotchesInHaste;
  return moves * ofOneMove + LETTERS.length * weights.startsElsewhere < weights.move;
};

/** Whether two sets of weights have every price and time alike. */
export const areEqualWeights = (a: Weights, b: Weights): boolean =>
  a === b || (Object.keys(a) as WeightName[]).every((name) => a[name] === b[name]);
