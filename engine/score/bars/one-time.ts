/** What is played, with how often it has been played, this time included: 1 the first time. */
export interface PlayedOnce<Item> {
  readonly item: Item;
  readonly pass: number;
}

/**
 * Counts for each of what is played how often it has been played by then.
 *
 * @param played in order, what is repeated as often as it is
 */
export const numberPasses = <Item>(played: readonly Item[]): readonly PlayedOnce<Item>[] => {
  const passes = new Map<Item, number>();
  return played.map((item) => {
    const pass = (passes.get(item) ?? 0) + 1;
    passes.set(item, pass);
    return { item, pass };
  });
};

/** A time of playing of a bar that is played more than once: the first, or each after it. */
export type OneTime = 'first' | 'later';

/**
 * Whether what is for one time of playing, or for each (null), is done then.
 *
 * @param pass as `numberPasses` has it
 */
export const isMadeAt = (time: OneTime | null, pass: number): boolean =>
  time === null || (time === 'first') === (pass === 1);
