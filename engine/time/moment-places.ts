import { bisector } from 'd3-array';
import { add, compare, divide, multiply, type Rational, rational, subtract } from '../music/rational.ts';
import { isCompound, pulseLength } from '../score/bars/beats.ts';
import { isShortBar } from '../score/bars/counts.ts';
import type { Bar } from '../score/model/bar.ts';

/** The beats of a bar. */
export const beatsOf = (bar: Bar): Rational[] => {
  const end = add(bar.onset, bar.duration);
  const length = pulseLength(bar.meter);
  const beats: Rational[] = [];
  for (let at = firstBeat(bar, length); compare(at, end) < 0; at = add(at, length)) beats.push(at);
  return beats;
};

/** The beats of a pickup are the last of its meter: a bar of an eighth and a quarter begins off the beat. */
const firstBeat = (bar: Bar, length: Rational): Rational => {
  const { index, onset, duration } = bar;
  if (index > 0 || !isShortBar(bar)) return onset;
  const beats = divide(duration, length);
  const over = subtract(beats, rational(Math.floor(beats.num / beats.den)));
  return add(onset, multiply(over, length));
};

/** A part of a pulse, and whether the notes of that pulse leave it countable. */
interface PulsePart {
  readonly at: Rational;
  readonly isCounted: boolean;
}

/**
 * Where a pulse is long, a foot may move twice within it: at halves from 0.5 s a pulse on, at quarters from 1 s on; in
 * compound meters at thirds and sixths.
 *
 * @param plucked onsets of the notes, in order
 */
export const betweenBeats = (
  bar: Bar,
  plucked: readonly Rational[],
  secondsAt: (at: Rational) => number,
): PulsePart[] => {
  const length = pulseLength(bar.meter);
  const parts = (isCompound(bar.meter) ? [3, 6] : [2, 4]).filter((count) => {
    const seconds = secondsAt(add(bar.onset, length)) - secondsAt(bar.onset);
    return seconds / count >= SHORTEST_PART_SECONDS;
  });
  const finest = parts.at(-1);
  if (finest === undefined) return [];
  const step = multiply(length, rational(1, finest));
  const end = add(bar.onset, bar.duration);
  const places: PulsePart[] = [];
  for (let from = bar.onset; compare(from, end) < 0; from = add(from, length)) {
    const until = add(from, length);
    const isCounted = !isDividedOtherwise(from, until, step, plucked);
    for (let at = add(from, step); compare(at, until) < 0 && compare(at, end) < 0; at = add(at, step))
      places.push({ at, isCounted });
  }
  return places;
};

/** Whether notes begin within a pulse, and none of them at a part of it. */
const isDividedOtherwise = (
  from: Rational,
  until: Rational,
  step: Rational,
  plucked: readonly Rational[],
): boolean => {
  let others = 0;
  for (let i = ONSETS.right(plucked, from); i < plucked.length && compare(plucked[i]!, until) < 0; i += 1) {
    if (divide(subtract(plucked[i]!, from), step).den === 1) return false;
    others += 1;
  }
  return others > 0;
};

const ONSETS = bisector<Rational, Rational>(compare);

const SHORTEST_PART_SECONDS = 0.25;
