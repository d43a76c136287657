/** An exact fraction in lowest terms, `den` > 0. Score time and durations are rationals of quarter notes. */
export interface Rational {
  readonly num: number;
  readonly den: number;
}

/** Nought. */
export const ZERO: Rational = { num: 0, den: 1 };

const gcd = (a: number, b: number): number => {
  let x = Math.abs(a);
  let y = Math.abs(b);
  while (y !== 0) {
    const rest = x % y;
    x = y;
    y = rest;
  }
  return x;
};

/** The least whole number that two divide. */
export const leastCommonMultiple = (a: number, b: number): number => (a / gcd(a, b)) * b;

/**
 * The fraction `num/den` in lowest terms.
 *
 * @throws RangeError for a zero denominator or numbers past the exact range of doubles (a bug of the caller:
 * readers check what files say before they come here).
 * @example rational(6, 4) // { num: 3, den: 2 }
 */
export const rational = (num: number, den = 1): Rational => {
  if (den === 0 || !Number.isSafeInteger(num) || !Number.isSafeInteger(den)) {
    throw new RangeError(`not an exact fraction: ${num}/${den}`);
  }
  if (num === 0) return ZERO;
  if (den === 1) return { num, den };
  const common = gcd(num, den) * (den < 0 ? -1 : 1);
  return { num: num / common, den: den / common };
};

/** The exact sum. */
export const add = (a: Rational, b: Rational): Rational =>
  a.den === b.den ? rational(a.num + b.num, a.den) : rational(a.num * b.den + b.num * a.den, a.den * b.den);

/** The exact difference. */
export const subtract = (a: Rational, b: Rational): Rational => add(a, { num: -b.num, den: b.den });

/** The exact product. */
export const multiply = (a: Rational, b: Rational): Rational => rational(a.num * b.num, a.den * b.den);

/** The exact quotient; dividing by 0 is a bug of the caller, and throws. */
export const divide = (a: Rational, b: Rational): Rational => rational(a.num * b.den, a.den * b.num);

/** Negative, zero or positive as `a` comes before, with or after `b`. */
export const compare = (a: Rational, b: Rational): number => a.num * b.den - b.num * a.den;

/** Whether two fractions are the same number. */
export const equals = (a: Rational, b: Rational): boolean => a.num === b.num && a.den === b.den;

/** The nearest decimal number. */
export const toNumber = (a: Rational): number => a.num / a.den;

/** A string that is equal for equal fractions: for keys of maps. */
export const rationalKey = (a: Rational): string => (a.den === 1 ? `${a.num}` : `${a.num}/${a.den}`);

/** A map whose keys are fractions, equal ones being one key: quicker than a map of `rationalKey`s. */
export class RationalMap<T> {
  readonly #byDenominator = new Map<number, Map<number, T>>();

  get({ num, den }: Rational): T | undefined {
    return this.#byDenominator.get(den)?.get(num);
  }

  set({ num, den }: Rational, value: T): void {
    const known = this.#byDenominator.get(den);
    if (known === undefined) this.#byDenominator.set(den, new Map([[num, value]]));
    else known.set(num, value);
  }
}
