/** Where a page keeps what it remembers: the browser's memory, or a stand-in. Either may throw. */
export interface Memory {
  readonly getItem: (name: string) => string | null;
  readonly setItem: (name: string, value: string) => void;
}

/** Something about many scores, kept in one place of the memory, the latest last. */
type Entries = readonly (readonly [key: string, value: unknown])[];

/** Scores, and characters of all of them together: far below what a browser grants a page. */
const MOST_SCORES = 60;
const MOST_CHARACTERS = 1_500_000;

const readEntries = (memory: Memory, shelf: string): Entries => {
  try {
    const found: unknown = JSON.parse(memory.getItem(shelf) ?? '[]');
    if (!Array.isArray(found)) return [];
    return found.filter((each) => Array.isArray(each) && each.length === 2 && typeof each[0] === 'string');
  } catch {
    // Memory that is shut off or spoilt remembers nothing.
    return [];
  }
};

/** What is kept of a score, unchecked; undefined where nothing is. */
export const takeFromShelf = (memory: Memory, shelf: string, key: string): unknown =>
  readEntries(memory, shelf).find(([name]) => name === key)?.[1];

/**
 * Keeps something of a score; the oldest of other scores is given up where there are too many.
 *
 * @returns whether it could be kept
 */
export const putOnShelf = (memory: Memory, shelf: string, key: string, value: unknown): boolean => {
  const others = readEntries(memory, shelf).filter(([name]) => name !== key);
  let kept: Entries = [...others, [key, value] as const].slice(-MOST_SCORES);
  while (kept.length > 1 && JSON.stringify(kept).length > MOST_CHARACTERS) kept = kept.slice(1);
  for (; kept.length > 0; kept = kept.slice(1)) {
    try {
      memory.setItem(shelf, JSON.stringify(kept));
      return true;
    } catch {
      // Full or shut off: perhaps it is enough to give up the oldest.
    }
  }
  return false;
};
