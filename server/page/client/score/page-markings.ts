import { formatChange, type Plan, rationalKey } from '../../../../engine/index.ts';
import { listBarIds, listGroups, placeBars } from './page-text.ts';

/** A marking as it stands on a page. */
export interface PageMarking {
  readonly id: string;
  readonly kind: 'setting' | 'change';
  /** Note names, such as `C♯ F♮`. */
  readonly pedals: string;
  /** Index into the bars. */
  readonly bar: number;
  readonly onsetQuarters: number;
  /** In its bar, from 1, as a fraction. */
  readonly beat: string;
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

const GROUP = /<g id="(marking-\d+)" class="pedal-marking[^"]*"([^>]*)>/g;

const quartersOf = (key: string): number => {
  const [num, den = 1] = key.split('/').map(Number);
  return num! / den;
};

type Printed = Omit<PageMarking, 'moves'>;

const readMarkings = (svg: string): readonly Omit<Printed, 'page'>[] =>
  listGroups([svg], GROUP).map(({ id, attribute }) => ({
    id,
    kind: attribute('data-kind') === 'setting' ? 'setting' : 'change',
    pedals: attribute('data-pedals'),
    bar: Number(attribute('data-bar-index')),
    onsetQuarters: quartersOf(attribute('data-onset')),
    beat: attribute('data-beat'),
  }));

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
    const onset = quartersOf(rationalKey(at));
    const needed = window.before === null ? onset : quartersOf(rationalKey(window.before.onset));
    const named = naming.get(formatChange(letter, to)) ?? [];
    const find = (isIt: (each: Printed) => boolean): number | undefined =>
      named.find((i) => isIt(printed[i]!));
    const here = find((each) => each.bar === bar && each.onsetQuarters === onset);
    if (here !== undefined) return here;
    // Where changes stand at the notes that need them.
    const atNote = find((each) => each.onsetQuarters === needed);
    if (needed > onset && atNote !== undefined && printed[atNote]!.kind === 'change') return atNote;
    return named.findLast((i) => printed[i]!.onsetQuarters <= onset) ?? null;
  });
};

/** A page as the service draws it, with what is read off it whatever the plan. */
export interface ReadPage {
  readonly svg: string;
  readonly printed: readonly Omit<Printed, 'page'>[];
  readonly barIds: readonly string[];
}

export const readPage = (svg: string): ReadPage => ({
  svg,
  printed: readMarkings(svg),
  barIds: listBarIds(svg),
});

/** Finds the moves of a plan on the pages. @param barIds ids of all bars of the part */
export const indexPages = (pages: readonly ReadPage[], barIds: readonly string[], plan: Plan): PageIndex => {
  const printed = pages.flatMap((page, i) => page.printed.map((each) => ({ ...each, page: i + 1 })));
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
