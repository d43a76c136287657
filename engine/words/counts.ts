/**
 * A number with what it counts.
 *
 * @example nameCount(1, 'note') // '1 note'
 * @example nameCount(3, 'note') // '3 notes'
 */
export const nameCount = (number: number, one: string, several = `${one}s`): string =>
  `${number} ${number === 1 ? one : several}`;

/** The same where a sentence begins with it: `One note`, `3 notes`. */
export const openWithCount = (number: number, one: string, several = `${one}s`): string =>
  number === 1 ? `One ${one}` : nameCount(number, one, several);

/** Words as a sentence begins with them. */
export const capitalize = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** A sentence as others go on with it. */
export const uncapitalize = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);
