import { add, compare, type Rational, rational, rationalKey } from '../music/rational.ts';
import { beatAt, beatOffset } from '../score/bars/beats.ts';
import type { Bar } from '../score/model/bar.ts';
import type { Score } from '../score/model/score.ts';
import { BEAT_TEXT, type Place } from './model.ts';

/** A score time, or what is missing in the score for the place to have one. */
export type PlacedTime =
  | { readonly ok: true; readonly at: Rational }
  | { readonly ok: false; readonly missing: 'bar' | 'beat' };

/**
 * The score time of a place.
 *
 * @param edge a span may end where its last bar does, past the last beat; anything else lies within its bar
 */
export const placeTime = (
  score: Score,
  { barIndex: bar, beat }: Place,
  edge: 'within' | 'end' = 'within',
): PlacedTime => {
  const there = score.bars[bar];
  if (there === undefined) return { ok: false, missing: 'bar' };
  const at = timeInBar(there, beat, edge);
  return at === null ? { ok: false, missing: 'beat' } : { ok: true, at };
};

const timeInBar = (bar: Bar, text: string, edge: 'within' | 'end'): Rational | null => {
  const beat = readFraction(text);
  if (beat === null) return null;
  const offset = beatOffset(bar.meter, beat);
  const past = compare(offset, bar.duration);
  const isInside = offset.num >= 0 && (past < 0 || (past === 0 && edge === 'end'));
  return isInside && isExact(bar.onset, offset) ? add(bar.onset, offset) : null;
};

/** Whether the sum of two times, and their difference again, stay within exact numbers: finer than that is no music. */
const isExact = (onset: Rational, offset: Rational): boolean => {
  const num = onset.num * offset.den + offset.num * onset.den;
  return [num * onset.den, onset.den * offset.den * onset.den].every(Number.isSafeInteger);
};

/** The fraction that a text such as `7/2` names; null where it is none. */
export const readFraction = (text: string): Rational | null => {
  if (!BEAT_TEXT.test(text)) return null;
  const [num, den = '1'] = text.split('/');
  return rational(Number(num), Number(den));
};

/**
 * Names a score time: the bar it falls into, and the beat there. The end of the last bar is named past its last beat.
 *
 * @returns null for a time outside the score
 */
export const namePlace = (score: Score, at: Rational): Place | null => {
  const bar = score.bars.findLast(({ onset }) => compare(onset, at) <= 0);
  if (bar === undefined || compare(at, add(bar.onset, bar.duration)) > 0) return null;
  return { barIndex: bar.index, beat: rationalKey(beatAt(bar, at)) };
};
