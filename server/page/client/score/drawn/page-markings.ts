import { formatChange, type Plan, rationalKey } from '../../../../../engine/index.ts';
import { placeBars } from './page-text.ts';
import { type PrintedPedals, quartersOfKey, type ReadPage } from './read-page.ts';

/** A marking as it stands on a page. */
export interface PageMarking extends PrintedPedals {
  /** From 1. */
  readonly page: number;
  /** Indices into the plan's moves. */
  readonly moves: readonly number[];
}

/** Where things stand on the pages. */
export interface PageIndex {
  /** In order of the pages. */
  readonly markings: readonly PageMarking[];
  readonly pageOfBar: (bar: number) => number;
  /** The marking by which each move is printed; null for those that no marking tells of. */
  readonly markingOfMove: readonly (PageMarking | null)[];
}

type Printed = Omit<PageMarking, 'moves'>;

/**
 * Tells by which marking a move is printed: the one at its moment or the change at its note, else the last before it
 * that names the pedal in its new position. A full setting may gather the moves of a silence before they are due.
 */
const markMoves = (plan: Plan, printed: readonly Printed[]): (number | null)[] => {
  // Of a long part with many pages everything that names a change is a small share.
  const naming = new Map<string, number[]>();
  printed.forEach(({ pedals }, i) => {
    for (const change of pedals.split(' ')) {
      const named = naming.get(change) ?? [];
      named.push(i);
      naming.set(change, named);
    }
  });
  return plan.moves.map(({ letter, to, at, bar, window }) => {
    const onset = quartersOfKey(rationalKey(at));
    const needed = window.before === null ? onset : quartersOfKey(rationalKey(window.before.onset));
    const named = naming.get(formatChange(letter, to)) ?? [];
    const find = (isIt: (each: Printed) => boolean): number | undefined =>
      named.find((i) => isIt(printed[i]!));
    const here = find((each) => each.bar === bar && each.onsetQuarters === onset);
    if (here !== undefined) return here;
    // Where changes stand at the notes that need them.
    const atNote = find((each) => each.onsetQuarters === needed);
    if (needed > onset && atNote !== undefined && printed[atNote]!.kind === 'change') return atNote;
    // What stands before the last note of the old position tells of an earlier move: pages may be of an earlier plan.
    const last = window.after === null ? 0 : quartersOfKey(rationalKey(window.after.onset));
    const since = last > onset ? 0 : last;
    const isGathered = ({ onsetQuarters: from }: Printed): boolean => from >= since && from <= onset;
    return named.findLast((i) => isGathered(printed[i]!)) ?? null;
  });
};

/** Finds the moves of a plan on the pages. @param barIds ids of all bars of the part */
export const indexPages = (pages: readonly ReadPage[], barIds: readonly string[], plan: Plan): PageIndex => {
  const printed = pages.flatMap((page, i) => page.pedals.map((each) => ({ ...each, page: i + 1 })));
  const marked = markMoves(plan, printed);
  const movesOf = new Map<number, number[]>();
  marked.forEach((marking, move) => {
    if (marking !== null) movesOf.set(marking, [...(movesOf.get(marking) ?? []), move]);
  });
  const markings = printed.map((each, i) => ({ ...each, moves: movesOf.get(i) ?? [] }));
  return {
    markings,
    pageOfBar: placeBars(
      pages.map((page) => page.barIds),
      barIds,
    ),
    markingOfMove: marked.map((marking) => (marking === null ? null : markings[marking]!)),
  };
};
