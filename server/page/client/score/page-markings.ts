import { formatChange, type Plan, rationalKey } from '../../../../engine/index.ts';
import { findBars, listGroups } from './page-text.ts';

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

const readMarkings = (pages: readonly string[]): readonly Printed[] =>
  listGroups(pages, GROUP).map(({ id, page, attribute }) => ({
    id,
    kind: attribute('data-kind') === 'setting' ? 'setting' : 'change',
    pedals: attribute('data-pedals'),
    bar: Number(attribute('data-bar-index')),
    onsetQuarters: quartersOf(attribute('data-onset')),
    beat: attribute('data-beat'),
    page,
  }));

/**
 * Tells by which marking a move is printed: the one at its moment or the change at its note, else the last before it
 * that names the pedal in its new position. A full setting may gather the moves of a silence before they are due.
 */
const markMoves = (plan: Plan, printed: readonly Printed[]): (number | null)[] =>
  plan.moves.map(({ letter, to, at, bar, window }) => {
    const onset = quartersOf(rationalKey(at));
    const needed = window.before === null ? onset : quartersOf(rationalKey(window.before.onset));
    const change = formatChange(letter, to);
    const names = ({ pedals }: Printed): boolean => pedals.split(' ').includes(change);
    const here = printed.findIndex((each) => each.bar === bar && each.onsetQuarters === onset && names(each));
    if (here !== -1) return here;
    // Where changes stand at the notes that need them.
    const atNote = printed.findIndex((each) => each.onsetQuarters === needed && names(each));
    if (needed > onset && atNote !== -1 && printed[atNote]!.kind === 'change') return atNote;
    const before = printed.findLastIndex((each) => each.onsetQuarters <= onset && names(each));
    return before === -1 ? null : before;
  });

/** What is read off pages as the service draws them, whatever the plan. */
export interface ReadPages {
  readonly printed: readonly Printed[];
  readonly pageOfBar: (bar: number) => number;
}

export const readPages = (pages: readonly string[], barIds: readonly string[]): ReadPages => ({
  printed: readMarkings(pages),
  pageOfBar: findBars(pages, barIds),
});

/** Finds the moves of a plan on the pages. */
export const indexPages = ({ printed, pageOfBar }: ReadPages, plan: Plan): PageIndex => {
  const marked = markMoves(plan, printed);
  const markings = printed.map((each, i) => ({
    ...each,
    moves: marked.flatMap((marking, move) => (marking === i ? [move] : [])),
  }));
  return {
    markings,
    pageOfBar,
    markingOfMove: marked.map((marking) => (marking === null ? null : markings[marking]!)),
  };
};
