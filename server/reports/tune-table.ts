import {
  cellsOfTune,
  GRADE_WORDS,
  nameKeySignature,
  orderSet,
  TUNE_COLUMNS,
  type TuneLine,
  type TuneRating,
} from '../../engine/index.ts';
import type { TunesReport } from '../api/answers/tune-table.ts';
import { cutText } from '../cut.ts';

/** One tune of the table, with where it stands. */
export interface RatedTune extends TuneLine, Pick<TuneRating, 'levers'> {
  readonly file: string;
}

/** A cell of CSV (RFC 4180); one that a spreadsheet would take for a formula is kept from it. */
const csvCell = (text: string): string => {
  const plain = /^[=+\-@\t\r]/.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(plain) ? `"${plain.replaceAll('"', '""')}"` : plain;
};

/** The table as CSV (RFC 4180), a line for each tune under a line of headings. */
export const writeTunesCsv = (tunes: readonly RatedTune[]): readonly string[] =>
  [
    ['file', ...TUNE_COLUMNS.map(({ name }) => name)],
    ...tunes.map((tune) => [tune.file, ...cellsOfTune(tune)]),
  ].map((row) => row.map(csvCell).join(','));

/** A longer title would leave no room beside it. */
const LONGEST_TITLE = 34;

/** The table for paper: what is to be done before the start stands last, since it can be long. */
export const tuneSheet = (tunes: readonly RatedTune[]) => ({
  title: 'Tunes for the lever harp',
  legend:
    'Before the start: strings to retune, then the levers that are up. Changes: levers to set during the tune.',
  heads: ['No.', 'Title', 'Key signature', 'Tuning', 'Changes', 'Difficulty', 'Before the start'],
  rows: tunes.map((tune) => [
    tune.number,
    cutText(tune.title, LONGEST_TITLE),
    nameKeySignature(tune.keyFifths),
    tune.tuning,
    `${tune.changes}`,
    GRADE_WORDS[tune.grade],
    [
      ...(tune.retuned.length === 0 ? [] : [`retune ${tune.retuned.join(' ')}`]),
      tune.leversUp.length === 0 ? 'all levers down' : tune.leversUp.join(' '),
    ].join('; '),
  ]),
});

/** The table as data, and the order of a set where one is wanted. */
export const reportTunes = (
  tunes: readonly RatedTune[],
  failures: readonly string[],
  set: boolean,
): TunesReport => ({
  tunes: tunes.map(({ levers: _, ...line }) => line),
  set: set ? orderSet(tunes.map(({ levers }) => levers)) : null,
  failures: [...failures],
});
