import {
  add,
  compare,
  leastCommonMultiple,
  type Rational,
  rational,
  toNumber,
  ZERO,
} from '../../music/rational.ts';
import type { Span } from '../../xml/tree.ts';
import { barLength } from '../bars/beats.ts';
import type { BarPlace, RawBar } from './raw-part.ts';
import type { RemarkList } from './remark-list.ts';
import { BadValue, MAX_DENOMINATOR } from './values.ts';

/** Onset and length of every bar, in quarter notes. */
export interface Timeline {
  readonly onsets: readonly Rational[];
  readonly durations: readonly Rational[];
  readonly end: Rational;
}

/** What the length of a bar follows from. */
export interface BarExtent {
  readonly number: string;
  readonly span: Span;
  readonly harp: readonly RawBar[];
  /** How far the longest voice of any part goes. */
  readonly longest: Rational;
}

/** A time that will be added to a bar's onset, and where the file says it. */
export interface TimedPlace extends BarPlace {
  readonly duration?: Rational;
  readonly span: Span;
}

/**
 * Lays the bars end to end. A bar is as long as the harp's longest voice, or that of another part as far as the metre
 * allows (so that an unfinished or empty harp bar keeps the time of the others); an empty bar is as long as its metre.
 *
 * @param times all times of the harp: together they must be exact (see `checkPrecision`)
 * @throws BadValue where times are finer than can be told exactly over the length of the score
 */
export const placeBars = (
  extents: readonly BarExtent[],
  times: Iterable<TimedPlace>,
  remarks: RemarkList,
): Timeline => {
  const durations = extents.map((extent, bar) => durationOf(extent, bar, remarks));
  checkPrecision(extents, durations, times);
  const onsets: Rational[] = [];
  let end = ZERO;
  for (const duration of durations) {
    onsets.push(end);
    end = add(end, duration);
  }
  return { onsets, durations, end };
};

const durationOf = ({ harp, longest }: BarExtent, bar: number, remarks: RemarkList): Rational => {
  const played = harp.reduce((length, bar) => later(length, bar.length), ZERO);
  const signs = harp[0]?.signs;
  const meter = signs === undefined ? rational(4) : barLength(signs.meter);
  const isFree = signs?.freeMeter ?? false;
  if (!isFree && compare(played, meter) > 0) {
    remarks.add(
      'bar-overfull',
      bar,
      'The bar is longer than its time signature and keeps its written length',
    );
  }
  const others = isFree || compare(longest, meter) <= 0 ? longest : meter;
  const length = later(played, others);
  return length.num === 0 ? meter : length;
};

const later = (a: Rational, b: Rational): Rational => (compare(a, b) >= 0 ? a : b);

/** Greatest product of a time's numerator and another's denominator that two additions keep exact. */
const EXACT = 2 ** 52;

/**
 * All times of the score are multiples of one fraction of a quarter note, 1/L, and sums of them are exact as long as
 * the score's length times L squared is: at L = 10,080 (a common choice of programs) that is 44 million quarter notes.
 */
const checkPrecision = (
  extents: readonly BarExtent[],
  durations: readonly Rational[],
  times: Iterable<TimedPlace>,
): void => {
  const total = durations.reduce((sum, duration) => sum + toNumber(duration), 1);
  const finest = Math.min(MAX_DENOMINATOR, Math.floor(Math.sqrt(EXACT / total)));
  let common = 1;
  const admit = (time: Rational, span: Span): void => {
    if (common % time.den === 0) return;
    common = leastCommonMultiple(common, time.den);
    if (common > finest)
      throw new BadValue({ span, text: `1/${common}` }, `fraction of a quarter note: at most 1/${finest}`);
  };
  for (const [bar, duration] of durations.entries()) admit(duration, extents[bar]!.span);
  for (const { at, duration, span } of times) {
    admit(at, span);
    if (duration !== undefined) admit(duration, span);
  }
};

/** Score time of a place; never before the start. */
export const timeOf = ({ onsets }: Timeline, { bar, at }: BarPlace): Rational => {
  const time = add(onsets[bar]!, at);
  return time.num < 0 ? ZERO : time;
};

/** Signs in score time and in order. */
export const placeInTime = <T extends BarPlace>(
  signs: readonly T[],
  timeline: Timeline,
): readonly (T & { readonly at: Rational })[] =>
  signs.map((sign) => ({ ...sign, at: timeOf(timeline, sign) })).toSorted((a, b) => compare(a.at, b.at));
