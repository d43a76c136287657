/** Longer words of a request or a file are not repeated in full. */
const LONGEST_TEXT = 500;

/** Longer lists are not. */
const LONGEST_LIST = 100;

/** A text as a message quotes it: cut where it is long, so that no answer is larger than what was asked. */
export const cutText = (text: string, longest: number = LONGEST_TEXT): string =>
  text.length <= longest ? text : `${text.slice(0, longest)}…`;

/** The facts of a problem with all that is long in them cut. */
export const cutFacts = <T>(value: T): T => cutAny(value) as T;

const cutAny = (value: unknown): unknown => {
  if (typeof value === 'string') return cutText(value);
  if (Array.isArray(value)) return value.slice(0, LONGEST_LIST).map(cutAny);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([name, inner]) => [name, cutAny(inner)]));
};
