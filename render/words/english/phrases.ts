export const mapValues = <Key extends string, Value, Made>(
  record: Readonly<Record<Key, Value>>,
  make: (value: Value) => Made,
): Readonly<Record<Key, Made>> =>
  Object.fromEntries(
    Object.entries<Value>(record).map(([key, value]) => [key, make(value)]),
  ) as unknown as Readonly<Record<Key, Made>>;
