/** Units of numbers: beside one, beside several, and in a sentence. */
const UNITS = {
  seconds: { one: ' s', several: ' s', sentence: 'seconds' },
  millimetres: { one: ' mm', several: ' mm', sentence: 'millimetres' },
  bars: { one: ' bar', several: ' bars', sentence: 'bars' },
  letters: { one: ' letter', several: ' letters', sentence: 'letters' },
  semitones: { one: ' semitone', several: ' semitones', sentence: 'semitones' },
  /** Only the ratio of prices matters. */
  price: { one: '', several: '', sentence: null },
} as const;

/** What a number of an option counts. */
export type Unit = keyof typeof UNITS;

/**
 * A number with its unit, for people.
 *
 * @example formatAmount(7, 'millimetres') // 7 mm
 */
export const formatAmount = (value: number, unit: Unit): string =>
  `${value}${value === 1 ? UNITS[unit].one : UNITS[unit].several}`;

/** The unit as a sentence names it; null where there is none to name. */
export const unitName = (unit: Unit): string | null => UNITS[unit].sentence;
