const listWith =
  (last: string) =>
  (names: readonly string[]): string =>
    names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} ${last} ${names.at(-1)}`;

/** Names with commas, and `and` before the last. */
export const listNames = listWith('and');

/** Names with commas, and `or` before the last. */
export const listChoices = listWith('or');

/**
 * A long list of names, shortened.
 *
 * @example listFirst(['2', '3', '5', '9'], 2) // '2, 3 and 2 more'
 */
export const listFirst = (names: readonly string[], most: number): string =>
  names.length <= most
    ? listNames(names)
    : `${names.slice(0, most).join(', ')} and ${names.length - most} more`;
