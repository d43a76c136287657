import { cutText } from '../../cut.ts';

const LONGEST_VALUE = 200;

/** A value as a message quotes it: words as they are, all else as JSON, cut where it is long. */
export const quoteValue = (value: unknown): string =>
  cutText(typeof value === 'string' ? value : (JSON.stringify(value) ?? ''), LONGEST_VALUE);
