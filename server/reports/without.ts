/** Those of a list that the other has not; of the same several times, as many as are too many. */
export const without = <T>(
  list: readonly T[],
  others: readonly T[],
  key: (item: T) => string,
): readonly T[] => {
  const left = new Map<string, number>();
  for (const other of others) left.set(key(other), (left.get(key(other)) ?? 0) + 1);
  return list.filter((item) => {
    const count = left.get(key(item)) ?? 0;
    left.set(key(item), count - 1);
    return count <= 0;
  });
};
