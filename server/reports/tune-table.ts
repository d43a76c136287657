import { GRADE_WORDS, nameKeySignature, orderSet, type TuneRating } from '../../engine/index.ts';
import type { TUNE_SORTS, TunesReport } from '../api/answers/tune-table.ts';
import { cutText } from '../cut.ts';

/** One tune of the table, with where it stands. */
export interface RatedTune {
  readonly file: string;
  readonly number: string;
  readonly rating: TuneRating;
}

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

export const TUNE_COLUMNS = [
  'no.',
  'title',
  'key signature',
  'tuning',
  'strings to retune',
  'levers up',
  'changes',
  'not playable',
  'difficulty',
  'better keys',
];

/** What the table says of a tune, column by column. */
export const cellsOfTune = ({ number, rating }: RatedTune): readonly string[] => [
  number,
  rating.title,
  nameKeySignature(rating.keyFifths),
  rating.tuning,
  rating.retuned.join(' '),
  rating.leversUp.join(' '),
  `${rating.changes}`,
  `${rating.stops}`,
  GRADE_WORDS[rating.grade],
  rating.betterKeys
    .map(
      ({ semitones, keyFifths }) =>
        `${semitones > 0 ? '+' : '−'}${Math.abs(semitones)}: ${nameKeySignature(keyFifths)}`,
    )
    .join(', '),
];

/** A cell of CSV (RFC 4180); one that a spreadsheet would take for a formula is kept from it. */
const csvCell = (text: string): string => {
  const plain = /^[=+\-@\t\r]/.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(plain) ? `"${plain.replaceAll('"', '""')}"` : plain;
};

const compareBy: Readonly<Record<TuneSort, (a: TuneRating, b: TuneRating) => number>> = {
  file: () => 0,
  title: (a, b) => a.title.localeCompare(b.title, 'en'),
  changes: (a, b) => a.stops - b.stops || a.changes - b.changes,
  retune: (a, b) => a.retuned.length - b.retuned.length,
  difficulty: (a, b) => GRADE_ORDER.indexOf(a.grade) - GRADE_ORDER.indexOf(b.grade),
};

const GRADE_ORDER = Object.keys(GRADE_WORDS) as (keyof typeof GRADE_WORDS)[];

/** The tunes that are wanted, in the order that is wanted. */
export const chooseTunes = (
  tunes: readonly RatedTune[],
  { only, playable, mostChanges, asTuned }: TuneFilter,
  sort: TuneSort,
): readonly RatedTune[] =>
  tunes
    .filter(
      ({ number, rating }) =>
        (only === null || only.includes(number)) &&
        (!playable || rating.playable) &&
        (mostChanges === null || rating.changes <= mostChanges) &&
        (!asTuned || rating.retuned.length === 0),
    )
    .toSorted((a, b) => compareBy[sort](a.rating, b.rating));

/** The table as CSV (RFC 4180), a line for each tune under a line of headings. */
export const writeTunesCsv = (tunes: readonly RatedTune[]): readonly string[] =>
  [['file', ...TUNE_COLUMNS], ...tunes.map((tune) => [tune.file, ...cellsOfTune(tune)])].map((row) =>
    row.map(csvCell).join(','),
  );

/** A longer title would leave no room beside it. */
const LONGEST_TITLE = 34;

/** The table for paper: what is to be done before the start stands last, since it can be long. */
export const tuneSheet = (tunes: readonly RatedTune[]) => ({
  title: 'Tunes for the lever harp',
  legend:
    'Before the start: strings to retune, then the levers that are up. Changes: levers to set during the tune.',
  heads: ['No.', 'Title', 'Key signature', 'Tuning', 'Changes', 'Difficulty', 'Before the start'],
  rows: tunes.map(({ number, rating }) => [
    number,
    cutText(rating.title, LONGEST_TITLE),
    nameKeySignature(rating.keyFifths),
    rating.tuning,
    `${rating.changes}`,
    GRADE_WORDS[rating.grade],
    [
      ...(rating.retuned.length === 0 ? [] : [`retune ${rating.retuned.join(' ')}`]),
      rating.leversUp.length === 0 ? 'all levers down' : rating.leversUp.join(' '),
    ].join('; '),
  ]),
});

/** The table as data, and the order of a set where one is wanted. */
export const reportTunes = (
  tunes: readonly RatedTune[],
  failures: readonly string[],
  set: boolean,
): TunesReport => ({
  tunes: tunes.map(({ file, number, rating: { levers: _, ...rating } }) => ({ file, number, ...rating })),
  set: set ? orderSet(tunes.map(({ rating }) => rating.levers)) : null,
  failures: [...failures],
});
