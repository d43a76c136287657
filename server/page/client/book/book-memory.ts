import { useState } from 'preact/hooks';
import {
  chooseTunes,
  type HarpName,
  type TuneFilter,
  type TuneSort,
  type TuneSummary,
} from '../../../../engine/index.ts';
import type { TunesReport } from '../../../api/answers/tune-table.ts';
import { TUNE_HARP } from './lever-harps.ts';

/** What each tune of a book asks of a lever harp. */
export interface BookTable extends Pick<TunesReport, 'tunes' | 'together' | 'failures'> {
  readonly harp: HarpName;
  /** Keys that suit the harp better were looked for. */
  readonly betterKeys: boolean;
}

/** The tunes of a set, in one tuning of the strings, and their best order. */
export interface BookSet {
  /** Numbers of tunes in the order of the book, at most `MOST_TUNES_IN_SET`. */
  readonly chosen: readonly string[];
  /** Null for that of the harp. */
  readonly tuning: string | null;
  /** Null until it is asked for. */
  readonly found: FoundSet | null;
}

/** The best order of a set: its indices are those of its tunes. */
export interface FoundSet extends Pick<TunesReport, 'tunes'> {
  readonly set: NonNullable<TunesReport['set']>;
}

/** How a tune book was left when one of its tunes was opened: it comes back so. */
export interface BookState {
  /** What is looked for in numbers and titles. */
  readonly find: string;
  /** The lever harp of the table, and of the tunes that are opened. */
  readonly harp: HarpName;
  /** Null until it is asked for. */
  readonly table: BookTable | null;
  readonly sort: TuneSort;
  readonly filter: Omit<TuneFilter, 'only'>;
  /** Number of the tune that was opened last. */
  readonly last: string | null;
  readonly set: BookSet;
}

const NEW_BOOK: BookState = {
  find: '',
  harp: TUNE_HARP,
  table: null,
  sort: 'file',
  filter: { playable: false, asTuned: false, mostChanges: null },
  last: null,
  set: { chosen: [], tuning: null, found: null },
};

const books = new Map<string, BookState>();

/** How a book was left in this session. */
export const recallBook = (key: string): BookState => books.get(key) ?? NEW_BOOK;

export const keepBook = (key: string, state: BookState): void => {
  books.set(key, state);
};

/** The state of a book, kept while the page is open. */
export const useBook = (key: string): readonly [BookState, (change: Partial<BookState>) => void] => {
  const [state, setState] = useState(() => recallBook(key));
  const change = (changed: Partial<BookState>): void => {
    const next = { ...recallBook(key), ...changed };
    keepBook(key, next);
    setState(next);
  };
  return [state, change];
};

/** A tune is taken into the set, or out of it: its order is then to be found anew. */
export const markTune = ({ tunes }: BookTable, set: BookSet, tune: string, isIn: boolean): BookSet => ({
  ...set,
  chosen: tunes
    .map(({ number }) => number)
    .filter((number) => (number === tune ? isIn : set.chosen.includes(number))),
  found: null,
});

const isFound = ({ number, title }: TuneSummary, find: string): boolean =>
  `${number} ${title}`.toLocaleLowerCase('en').includes(find.trim().toLocaleLowerCase('en'));

/** The tunes of the list that are looked for. */
export const findTunes = <T extends TuneSummary>(tunes: readonly T[], { find }: BookState): readonly T[] =>
  tunes.filter((tune) => isFound(tune, find));

/** The lines of the table that are wanted, in its order. */
export const linesOfBook = (table: BookTable, state: BookState): BookTable['tunes'] =>
  findTunes(chooseTunes(table.tunes, { ...state.filter, only: null }, state.sort), state);

/** The tunes of the set that was found, in its order; none where no order was found. */
export const tunesOfSet = ({ set: { found } }: BookState): readonly TuneSummary[] =>
  found === null ? [] : found.set.order.map((index) => found.tunes[index]!);

/** The tunes as they are shown: in this order one goes from tune to tune. */
export const shownTunes = (tunes: readonly TuneSummary[], state: BookState): readonly TuneSummary[] =>
  state.table === null ? findTunes(tunes, state) : linesOfBook(state.table, state);
