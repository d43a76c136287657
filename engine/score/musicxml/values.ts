import { add, compare, divide, type Rational, rational, toNumber, ZERO } from '../../music/rational.ts';
import type { Problem } from '../../problem.ts';
import { lineAndColumnAt, type XmlElement } from '../../xml/tree.ts';

/** A reason to refuse the file. Thrown while reading, turned into a problem at the reader's entrance (`readMusicXml`). */
export abstract class ReadError extends Error {
  /** @param text the source, for the line and column of a place */
  abstract problemIn(text: string): Problem;
}

/** The music would grow past a limit. */
export class LimitExceeded extends ReadError {
  readonly #problem: Problem;

  constructor(what: 'elements', limit: number, found: number) {
    super(what);
    this.#problem = { code: 'limit-exceeded', what, limit, found };
  }

  problemIn(): Problem {
    return this.#problem;
  }
}

/** A value of the file that cannot be read. */
export class BadValue extends ReadError {
  readonly #what: string;
  readonly #value: string;
  readonly #offset: number;

  constructor(element: Pick<XmlElement, 'span' | 'text'>, what: string, value: string = element.text.trim()) {
    super(what);
    this.#what = what;
    this.#value = value.slice(0, 60);
    this.#offset = element.span.start;
  }

  problemIn(text: string): Problem {
    return {
      code: 'bad-value',
      what: this.#what,
      value: this.#value,
      ...lineAndColumnAt(text, this.#offset),
    };
  }
}

/**
 * Finest time inside a bar, and the longest bar in quarter notes. Within both, the products that adding and comparing
 * two times needs stay among the exact integers of doubles: 2 * 4000 * 1e6 * 1e6 < 2^53.
 */
export const MAX_DENOMINATOR = 1_000_000;
const MAX_BAR_QUARTERS = 4000;

/** `time` if it is within the exact range, else `bad-value` at `element`. */
export const exactTime = (time: Rational, element: XmlElement, what: string): Rational => {
  if (time.den > MAX_DENOMINATOR || Math.abs(toNumber(time)) > MAX_BAR_QUARTERS) {
    throw new BadValue(element, `${what} in a bar`);
  }
  return time;
};

/** The sum of two exact times, checked. */
export const addTime = (a: Rational, b: Rational, element: XmlElement, what: string): Rational =>
  exactTime(add(a, b), element, what);

const DECIMAL = /^[+-]?(?:\d{1,9}(?:\.(\d{0,3})0*)?|\.(\d{1,3})0*)$/u;

/** A decimal of at most nine digits and three places, exactly. */
const readRational = (element: XmlElement, what: string): Rational => {
  const text = element.text.trim();
  const whole = readDigits(text);
  if (whole !== null) return { num: whole, den: 1 };
  const match = DECIMAL.exec(text);
  if (match === null) throw new BadValue(element, what);
  return rational(Math.round(Number(text) * 1000), 1000);
};

/** A whole number of at most nine digits, as nearly all lengths are. */
const readDigits = (text: string): number | null => {
  if (text.length === 0 || text.length > 9) return null;
  let value = 0;
  for (let i = 0; i < text.length; i += 1) {
    const digit = text.charCodeAt(i) - 48;
    if (!(digit >= 0 && digit <= 9)) return null;
    value = 10 * value + digit;
  }
  return value;
};

/** Divisions of a quarter note: positive. */
export const readDivisions = (element: XmlElement): Rational => {
  const divisions = readRational(element, 'number of divisions');
  if (divisions.num <= 0) throw new BadValue(element, 'number of divisions');
  return divisions;
};

/** A length counted in divisions, as quarter notes; negative only where `signed`. */
export const readLength = (
  element: XmlElement,
  divisions: Rational,
  what: string,
  signed = false,
): Rational => {
  const whole = readDigits(element.text.trim());
  if (whole !== null) return exactTime(rational(whole * divisions.den, divisions.num), element, what);
  const length = readRational(element, what);
  if (!signed && compare(length, ZERO) < 0) throw new BadValue(element, what);
  return exactTime(divide(length, divisions), element, what);
};

/** A decimal number from `low` to `high`. */
export const readNumber = (element: XmlElement, what: string, low: number, high: number): number => {
  const text = element.text.trim();
  const value = Number(text);
  if (text === '' || !Number.isFinite(value) || value < low || value > high)
    throw new BadValue(element, what);
  return value;
};

/** A whole number from `low` to `high`. */
export const readInteger = (element: XmlElement, what: string, low: number, high: number): number => {
  const value = readNumber(element, what, low, high);
  if (!Number.isInteger(value)) throw new BadValue(element, what);
  return value;
};
