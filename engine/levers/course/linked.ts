import { group } from '../../group.ts';

/**
 * Parts items into groups: those that are linked, directly or by way of others, are in one. Groups come in the order of
 * their first items, and items in their own.
 *
 * @param listLinks calls `link` with the indices of two items for every pair that belongs together
 */
export const groupLinked = <T>(
  items: readonly T[],
  listLinks: (link: (a: number, b: number) => void) => void,
): T[][] => {
  const leader = items.map((_, i) => i);
  const find = (i: number): number => {
    let at = i;
    while (leader[at] !== at) at = leader[at]!;
    return at;
  };
  listLinks((a, b) => {
    leader[find(a)] = find(b);
  });
  return [...group(items, (_, i) => find(i)).values()];
};
