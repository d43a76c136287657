/**
 * What one thread tells another, in pieces. A message is taken over whole, in one task of the thread that gets it: that
 * of a long part would take a fifth of a second, in which the page answers nothing.
 */

/** Entries of one piece: a few milliseconds of the thread that takes it over, also where entries are whole bars. */
const MOST = 200;

type List = unknown[] | Map<unknown, unknown> | Set<unknown>;

/** Some entries of a long list, map or set. */
interface Slice {
  /** The names that lead to it. */
  readonly path: readonly string[];
  readonly entries: readonly unknown[];
}

/** What was cut, its long lists empty. */
interface Frame<T> {
  readonly told: T;
  /** How many slices come after it. */
  readonly slices: number;
}

export type Piece<T> = Frame<T> | Slice;

const asList = (value: unknown): List | null =>
  Array.isArray(value) || value instanceof Map || value instanceof Set ? value : null;

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null;

const emptyLike = (list: List): List =>
  Array.isArray(list) ? [] : list instanceof Map ? new Map() : new Set();

const slicesOf = (list: List, path: readonly string[], most: number): Slice[] => {
  const entries = [...list];
  return Array.from({ length: Math.ceil(entries.length / most) }, (_, i) => ({
    path,
    entries: entries.slice(i * most, (i + 1) * most),
  }));
};

/**
 * Cuts plain data into pieces: a frame with everything but the long lists, maps and sets, then these in slices. What
 * stands within a list stays whole.
 */
export const cutIntoPieces = <T>(whole: T, most = MOST): readonly Piece<T>[] => {
  const slices: Slice[] = [];
  const withoutLong = (value: unknown, path: readonly string[]): unknown => {
    const list = asList(value);
    if (list !== null) {
      const length = Array.isArray(list) ? list.length : list.size;
      if (length <= most) return value;
      slices.push(...slicesOf(list, path, most));
      return emptyLike(list);
    }
    if (!isRecord(value)) return value;
    return Object.fromEntries(
      Object.entries(value).map(([name, each]) => [name, withoutLong(each, [...path, name])]),
    );
  };
  const told = withoutLong(whole, []) as T;
  return [{ told, slices: slices.length }, ...slices];
};

const addTo = (list: List, entries: readonly unknown[]): void => {
  if (Array.isArray(list)) list.push(...entries);
  else if (list instanceof Set) for (const each of entries) list.add(each);
  else for (const [key, value] of entries as readonly (readonly [unknown, unknown])[]) list.set(key, value);
};

/** Joins pieces as they come, each as it is there. The frames are filled: they are to be the joiner's own. */
export const joinPieces = <T>(onWhole: (whole: T) => void): ((piece: Piece<T>) => void) => {
  let frame: Frame<T> | null = null;
  let missing = 0;
  return (piece) => {
    if ('told' in piece) {
      frame = piece;
      missing = piece.slices;
    } else {
      const list = piece.path.reduce(
        (at: unknown, name) => (at as Record<string, unknown>)[name],
        frame!.told,
      );
      addTo(list as List, piece.entries);
      missing -= 1;
    }
    if (missing === 0) onWhole(frame!.told);
  };
};
