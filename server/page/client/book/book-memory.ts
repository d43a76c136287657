import { useState } from 'preact/hooks';
import {
  chooseTunes,
  type HarpName,
  type TuneFilter,
  type TuneSort,
  type TuneSummary,
} from '../../../../engine/index.ts';
import type { TunesReport } from '../../../api/answers/tune-table.ts';

/** What each tune of a book asks of a lever harp. */
export interface BookTable extends Pick<TunesReport, 'tunes' | 'failures'> {
  readonly harp: HarpName;
  /** Keys that suit the harp better were looked for. */
  readonly betterKeys: boolean;
}

/** How a tune book was left when one of its tunes was opened: it comes back so. */
export interface BookState {
  /** What is looked for in numbers and titles. */
  readonly find: string;
  /** Null until it is asked for. */
  readonly table: BookTable | null;
  readonly sort: TuneSort;
  readonly filter: Omit<TuneFilter, 'only'>;
  /** Number of the tune that was opened last. */
  readonly last: string | null;
}

const NEW_BOOK: BookState = {
  find: '',
  table: null,
  sort: 'file',
  filter: { playable: false, asTuned: false, mostChanges: null },
  last: null,
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

const isFound = ({ number, title }: TuneSummary, find: string): boolean =>
  `${number} ${title}`.toLocaleLowerCase('en').includes(find.trim().toLocaleLowerCase('en'));

/** The tunes of the list that are looked for. */
export const findTunes = <T extends TuneSummary>(tunes: readonly T[], { find }: BookState): readonly T[] =>
  tunes.filter((tune) => isFound(tune, find));

/** The lines of the table that are wanted, in its order. */
export const linesOfBook = (table: BookTable, state: BookState): BookTable['tunes'] =>
  findTunes(chooseTunes(table.tunes, { ...state.filter, only: null }, state.sort), state);

/** The tunes as they are shown: in this order one goes from tune to tune. */
export const shownTunes = (tunes: readonly TuneSummary[], state: BookState): readonly TuneSummary[] =>
  state.table === null ? findTunes(tunes, state) : linesOfBook(state.table, state);
