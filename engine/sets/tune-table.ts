import { GRADES } from '../difficulty/model.ts';
import { GRADE_WORDS } from '../difficulty/words.ts';
import type { TuneRating } from './rate-tune.ts';

/** One tune of a table: what it asks of the player, and its number in its book. */
export interface TuneLine extends Omit<TuneRating, 'levers'> {
  /** Empty for a piece that is in no tune book. */
  readonly number: string;
}

/** The orders in which the tunes of a table can stand. */
export const TUNE_SORTS = ['file', 'title', 'changes', 'retune', 'difficulty'] as const;

/** One of them. */
export type TuneSort = (typeof TUNE_SORTS)[number];

/** Which tunes of a table are wanted. */
export interface TuneFilter {
  /** Numbers of the tunes; null for all. */
  readonly only: readonly string[] | null;
  readonly playable: boolean;
  /** The most lever changes during a tune; null for any number. */
  readonly mostChanges: number | null;
  /** No string is to be retuned. */
  readonly asTuned: boolean;
}

/** The columns, each with the order that it stands for; null where the table cannot be sorted by it. */
export const TUNE_COLUMNS: readonly { readonly name: string; readonly sort: TuneSort | null }[] = [
  { name: 'no.', sort: 'file' },
  { name: 'title', sort: 'title' },
  { name: 'key', sort: null },
  { name: 'tuning', sort: null },
  { name: 'strings to retune', sort: 'retune' },
  { name: 'levers up', sort: null },
  { name: 'changes', sort: 'changes' },
  { name: 'not playable', sort: null },
  { name: 'difficulty', sort: 'difficulty' },
  { name: 'better keys', sort: null },
];

/** What the table says of a tune, column by column. */
export const cellsOfTune = (tune: TuneLine): readonly string[] => [
  tune.number,
  tune.title,
  tune.keyName,
  tune.tuning,
  tune.retuned.join(', '),
  tune.leversUp.join(' '),
  `${tune.changes}`,
  `${tune.stops}`,
  GRADE_WORDS[tune.grade],
  tune.betterKeys
    .map(({ semitones, keyName }) => `${semitones > 0 ? '+' : '−'}${Math.abs(semitones)}: ${keyName}`)
    .join(', '),
];

const compareBy: Readonly<Record<TuneSort, (a: TuneLine, b: TuneLine) => number>> = {
  file: () => 0,
  title: (a, b) => a.title.localeCompare(b.title, 'en'),
  changes: (a, b) => a.stops - b.stops || a.changes - b.changes,
  retune: (a, b) => a.retuned.length - b.retuned.length,
  difficulty: (a, b) =>
    Number(a.stops > 0) - Number(b.stops > 0) || GRADES.indexOf(a.grade) - GRADES.indexOf(b.grade),
};

/** The tunes that are wanted, in the order that is wanted; equal ones stay as they stood. */
export const chooseTunes = <T extends TuneLine>(
  tunes: readonly T[],
  { only, playable, mostChanges, asTuned }: TuneFilter,
  sort: TuneSort,
): readonly T[] =>
  tunes
    .filter(
      (tune) =>
        (only === null || only.includes(tune.number)) &&
        (!playable || tune.playable) &&
        (mostChanges === null || tune.changes <= mostChanges) &&
        (!asTuned || tune.retuned.length === 0),
    )
    .toSorted(compareBy[sort]);
