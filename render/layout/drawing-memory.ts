import { createHash } from 'node:crypto';

/**
 * Keeps what was laid out under the hash of what it was laid out from: only who asks for the same again gets it. What was
 * not wanted for the longest goes first when it grows too large.
 */
export interface DrawingMemory {
  readonly find: (key: string) => string | undefined;
  readonly keep: (key: string, drawing: string) => void;
}

/** The key of what is laid out from some texts. */
export const drawingKey = (...from: readonly string[]): string => {
  const hash = createHash('sha256');
  for (const text of from) hash.update(text).update('\0');
  return hash.digest('base64');
};

/** @param mostCharacters of all drawings together */
export const createDrawingMemory = (mostCharacters: number): DrawingMemory => {
  // A map lists its entries in the order in which they were set.
  const kept = new Map<string, string>();
  let size = 0;
  const forget = (key: string): void => {
    size -= kept.get(key)?.length ?? 0;
    kept.delete(key);
  };
  return {
    find: (key) => {
      const drawing = kept.get(key);
      if (drawing === undefined) return undefined;
      kept.delete(key);
      kept.set(key, drawing);
      return drawing;
    },
    keep: (key, drawing) => {
      forget(key);
      if (drawing.length > mostCharacters) return;
      kept.set(key, drawing);
      size += drawing.length;
      for (const oldest of kept.keys()) {
        if (size <= mostCharacters) break;
        forget(oldest);
      }
    },
  };
};
