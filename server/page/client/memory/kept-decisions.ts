import { checkDecisions, type Decisions } from '../../../../engine/index.ts';
import { fingerprintOf } from './fingerprint.ts';

/** Decisions about many scores, kept in one place of the browser's memory, the latest last. */
type Shelf = readonly (readonly [key: string, decisions: unknown])[];

/** Where decisions are kept: the browser's memory, or a stand-in. Either may throw. */
export interface Memory {
  readonly getItem: (name: string) => string | null;
  readonly setItem: (name: string, value: string) => void;
}

const NAME = 'tringle-decisions';

/** Scores, and characters of all of them together: far below what a browser grants a page. */
const MOST_SCORES = 60;
const MOST_CHARACTERS = 1_500_000;

/** A score file as it was chosen: its bytes, and the part and the tune where the user had to choose. */
interface FileBytes {
  readonly bytes: Uint8Array;
  readonly part: string | null;
  readonly tune?: string;
}

/** By what a score is known again: its bytes and what was chosen in it. */
export const keyOfFile = ({ bytes, part, tune }: FileBytes): string =>
  `${fingerprintOf(bytes)}${part === null ? '' : ` ${part}`}${tune === undefined ? '' : ` tune ${tune}`}`;

const readShelf = (memory: Memory): Shelf => {
  try {
    const found: unknown = JSON.parse(memory.getItem(NAME) ?? '[]');
    if (!Array.isArray(found)) return [];
    return found.filter((each) => Array.isArray(each) && each.length === 2 && typeof each[0] === 'string');
  } catch {
    // Memory that is shut off or spoilt remembers nothing.
    return [];
  }
};

/** The decisions kept for a score;  null where there are none. */
export const recallDecisions = (memory: Memory, key: string): Decisions | null => {
  const found = readShelf(memory).find(([name]) => name === key);
  const checked = checkDecisions(found?.[1]);
  return checked.ok ? checked.decisions : null;
};

/**
 * Keeps the decisions on a score; the oldest of other scores is given up where there are too many.
 *
 * @returns whether it could be kept
 */
export const keepDecisions = (memory: Memory, key: string, decisions: Decisions): boolean => {
  const others = readShelf(memory).filter(([name]) => name !== key);
  let shelf: Shelf = [...others, [key, decisions] as const].slice(-MOST_SCORES);
  while (shelf.length > 1 && JSON.stringify(shelf).length > MOST_CHARACTERS) shelf = shelf.slice(1);
  for (; shelf.length > 0; shelf = shelf.slice(1)) {
    try {
      memory.setItem(NAME, JSON.stringify(shelf));
      return true;
    } catch {
      // Full or shut off: perhaps it is enough to give up the oldest.
    }
  }
  return false;
};
