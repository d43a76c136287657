import { bisector } from 'd3-array';
import { add, compare, divide, multiply, type Rational, rational, subtract } from '../music/rational.ts';
import { isCompound, pulseLength } from '../score/bars/beats.ts';
import type { Bar } from '../score/model/bar.ts';

/** The beats of a bar. @param gone how much of the bar has gone where it begins, in quarters: of an upbeat, or of a bar that a repeat divides */
export const beatsOf = (bar: Bar, gone: Rational): Rational[] =>
  pulsesOf(bar, gone).filter((at) => compare(at, bar.onset) >= 0);

/** The pulses that begin or sound in a bar: the first may have begun before it. */
const pulsesOf = ({ onset, duration, meter }: Bar, gone: Rational): Rational[] => {
  const end = add(onset, duration);
  const length = pulseLength(meter);
  const pulses: Rational[] = [];
  const passed = divide(gone, length);
  const over = subtract(passed, rational(Math.floor(passed.num / passed.den)));
  for (let at = subtract(onset, multiply(over, length)); compare(at, end) < 0; at = add(at, length)) {
    pulses.push(at);
  }
  return pulses;
};

/** Whether a time is a multiple of half a beat of its bar, in compound meters of a third: as easy to count as the beats. */
export const divides = ({ onset, meter }: Bar, gone: Rational, at: Rational): boolean => {
  const pulses = divide(add(gone, subtract(at, onset)), pulseLength(meter));
  return multiply(pulses, rational(isCompound(meter) ? 3 : 2)).den === 1;
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
  gone: Rational,
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
  for (const from of pulsesOf(bar, gone)) {
    const until = add(from, length);
    const isCounted = !isDividedOtherwise(from, until, step, plucked);
    for (let at = add(from, step); compare(at, until) < 0 && compare(at, end) < 0; at = add(at, step))
      if (compare(at, bar.onset) >= 0) places.push({ at, isCounted });
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
