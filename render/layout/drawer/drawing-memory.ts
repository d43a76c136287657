import { createHash } from 'node:crypto';

/**
 * Keeps what was laid out under the hash of what it was laid out from: only who asks for the same again gets it. What was
 * not wanted for the longest goes first when it grows too large.
 */
export interface Memory<Kept> {
  readonly find: (key: string) => Kept | undefined;
  readonly keep: (key: string, kept: Kept) => void;
}

export type DrawingMemory = Memory<string>;

/** The key of what is laid out from some texts. */
export const drawingKey = (...from: readonly string[]): string => {
  const hash = createHash('sha256');
  for (const text of from) hash.update(text).update('\0');
  return hash.digest('base64');
};

/** @param mostCharacters of all drawings together */
export const createDrawingMemory = (mostCharacters: number): DrawingMemory =>
  createMemory(mostCharacters, ({ length }) => length);

/** @param most what all that is kept may come to */
export const createMemory = <Kept>(most: number, sizeOf: (kept: Kept) => number): Memory<Kept> => {
  // A map lists its entries in the order in which they were set.
  const entries = new Map<string, { readonly kept: Kept; readonly size: number }>();
  let total = 0;
  const forget = (key: string): void => {
    total -= entries.get(key)?.size ?? 0;
    entries.delete(key);
  };
  return {
    find: (key) => {
      const entry = entries.get(key);
      if (entry === undefined) return undefined;
      entries.delete(key);
      entries.set(key, entry);
      return entry.kept;
    },
    keep: (key, kept) => {
      forget(key);
      const size = sizeOf(kept);
      if (size > most) return;
      entries.set(key, { kept, size });
      total += size;
      for (const oldest of entries.keys()) {
        if (total <= most) break;
        forget(oldest);
      }
    },
  };
};
