/** A bar number longer than this is a program's name for the bar. */
const LONGEST = 5;

/**
 * A bar's number as it is printed: of a program's name for the bar, the figures at its end.
 *
 * @example printedBarNumber('MOVEMENT2_MEASURE17') // '17'
 */
export const printedBarNumber = (number: string): string =>
  number.length <= LONGEST ? number : /\d{0,5}$/.exec(number)![0];
