/**
 * The ids of the signs on the pages of a marked attempt: one for each moment, in order.
 *
 * @param moments of the judged changes, in their order
 */
export const signIds = (moments: readonly string[]): ReadonlyMap<string, string> =>
  new Map([...new Set(moments)].map((moment, index) => [moment, `judged-${index + 1}`]));
