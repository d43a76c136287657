export const mapValues = <Key extends string, Value, Made>(
  record: Readonly<Record<Key, Value>>,
  make: (value: Value) => Made,
): Readonly<Record<Key, Made>> =>
  Object.fromEntries(Object.entries<Value>(record).map(([key, value]) => [key, make(value)])) as Record<
    Key,
    Made
  >;

/** One field of every entry. */
export const fieldOfEach = <Entries extends object, Field extends keyof Entries[keyof Entries]>(
  entries: Entries,
  field: Field,
): { readonly [Key in keyof Entries]: Entries[Key][Field] } =>
  Object.fromEntries(Object.entries(entries).map(([key, entry]) => [key, entry[field]])) as {
    readonly [Key in keyof Entries]: Entries[Key][Field];
  };
