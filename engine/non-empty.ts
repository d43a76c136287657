/** A list with at least one item. */
export type NonEmpty<Item> = readonly [Item, ...Item[]];

export const isNonEmpty = <Item>(items: readonly Item[]): items is NonEmpty<Item> => items.length > 0;

/** What is made of each item: as many as there are. */
export const mapNonEmpty = <Item, Made>(
  [first, ...others]: NonEmpty<Item>,
  make: (item: Item) => Made,
): NonEmpty<Made> => [make(first), ...others.map(make)];

/** The names by which a record has something, in its order. */
export const namesIn = <Name extends string>(record: Readonly<Record<Name, unknown>>): NonEmpty<Name> =>
  Object.keys(record) as [Name, ...Name[]];
