import { add, multiply, type Rational, rational, toNumber, ZERO } from '../../music/rational.ts';
import type { XmlElement } from '../../xml/tree.ts';
import type { ReadLog } from './log.ts';

/**
 * Bounds within which any two score times can be added and compared exactly in doubles: the numerator is at most
 * 4e10, its product with a denominator 4e15, the sum of two such 8e15, below 2^53.
 */
const MAX_DENOMINATOR = 100_000;
const MAX_QUARTERS = 400_000;

const checked = (time: Rational, element: XmlElement, log: ReadLog): Rational => {
  if (time.den <= MAX_DENOMINATOR && Math.abs(toNumber(time)) <= MAX_QUARTERS) return time;
  log.badValue('duration', `${time.num}/${time.den} quarter notes`, element);
  return ZERO;
};

/** The sum of two score times; refused, and 0, where it passes what can be counted exactly. */
export const addTime = (a: Rational, b: Rational, element: XmlElement, log: ReadLog): Rational =>
  checked(add(a, b), element, log);

/** A duration times a ratio; refused, and 0, where it passes what can be counted exactly. */
export const scaleTime = (time: Rational, ratio: Rational, element: XmlElement, log: ReadLog): Rational =>
  ratio.num === ratio.den ? time : checked(multiply(time, ratio), element, log);

/** The largest denominator that a beat written as a decimal is taken for: 12 parts of a 32nd note's beat. */
const MAX_BEAT_DENOMINATOR = 96;

/**
 * The simplest fraction near a decimal: timestamps write thirds as `.333`.
 *
 * Runs down the continued fraction, so each step gives the best fraction of its size.
 * @example fractionNear(2.333) // 7/3
 */
export const fractionNear = (value: number): Rational => {
  const whole = Math.floor(value);
  let [lastNum, lastDen, num, den] = [1, 0, whole, 1];
  let rest = value - whole;
  while (Math.abs(num / den - value) > 0.0006 && rest > 1e-9) {
    const next = Math.floor(1 / rest);
    rest = 1 / rest - next;
    const [nextNum, nextDen] = [next * num + lastNum, next * den + lastDen];
    if (nextDen > MAX_BEAT_DENOMINATOR) break;
    [lastNum, lastDen, num, den] = [num, den, nextNum, nextDen];
  }
  return rational(num, den);
};
