import {
  cellsOfTune,
  GRADE_WORDS,
  nameBreak,
  nameCount,
  nameSetTotal,
  nameTogether,
  orderSet,
  TUNE_COLUMNS,
  type TuneLine,
  type TuneRating,
  tunesTogether,
} from '../../engine/index.ts';
import type { SetTune } from '../../render/index.ts';
import type { TunesReport } from '../api/answers/tune-table.ts';
import { cutText } from '../cut.ts';
import { csvLine } from './csv.ts';

/** One tune of the table, with where it stands. */
export interface RatedTune extends TuneLine, Pick<TuneRating, 'levers'> {
  readonly file: string;
  /** Reads it again, for its music. */
  readonly open: () => Promise<SetTune>;
}

/** The table as CSV (RFC 4180), a line for each tune under a line of headings. */
export const writeTunesCsv = (tunes: readonly RatedTune[]): readonly string[] =>
  [
    ['file', ...TUNE_COLUMNS.map(({ name }) => name)],
    ...tunes.map((tune) => [tune.file, ...cellsOfTune(tune)]),
  ].map(csvLine);

/** A longer title would leave no room beside it. */
const LONGEST_TITLE = 34;

/** The table for paper: what is to be done before the start stands last, since it can be long. */
export const tuneSheet = (tunes: readonly RatedTune[]) => ({
  title: 'Tunes for the lever harp',
  legend:
    'Before the start: strings to retune, then the levers that are up. Changes: levers to set during the tune.',
  heads: ['No.', 'Title', 'Key', 'Tuning', 'Changes', 'Difficulty', 'Before the start'],
  rows: tunes.map((tune) => [
    tune.number,
    cutText(tune.title, LONGEST_TITLE),
    tune.keyName,
    tune.tuning,
    `${tune.changes}`,
    `${GRADE_WORDS[tune.grade]}${tune.stops > 0 ? ', not playable' : ''}`,
    [
      ...(tune.retuned.length === 0 ? [] : [`retune ${tune.retuned.join(', ')}`]),
      tune.leversUp.length === 0 ? 'all levers down' : tune.leversUp.join(' '),
    ].join('; '),
  ]),
  below: tellTogether(tunes),
});

/** Which tunes fit together, in sentences. */
export const tellTogether = (tunes: readonly RatedTune[]): readonly string[] =>
  tunesTogether(tunes).map((group) => nameTogether(group.map((index) => tunes[index]!.title)));

/** What a tune asks in its place of a set, in words. */
export interface SetLine {
  readonly tune: RatedTune;
  /** What is set before it. */
  readonly before: string;
  /** Empty where it is playable throughout. */
  readonly trouble: string;
}

/**
 * A set in its best order, in words.
 *
 * @param tunes in one tuning, at most `MOST_TUNES_IN_SET`
 */
export const tellSet = (
  tunes: readonly RatedTune[],
): { readonly lines: readonly SetLine[]; readonly total: string } => {
  const set = orderSet(tunes.map(({ levers }) => levers));
  const lines = set.order.map((index, place) => {
    const tune = tunes[index]!;
    const trouble =
      tune.stops === 0 ? '' : `${nameCount(tune.stops, 'place')} not playable in ${tune.tuning}`;
    return { tune, before: nameBreak(set, place), trouble };
  });
  return { lines, total: nameSetTotal(set) };
};

/** The tunes of a set in its best order. */
export const setTunes = (tunes: readonly RatedTune[]): readonly RatedTune[] =>
  tellSet(tunes).lines.map(({ tune }) => tune);

/** A set for the music stand: its tunes in their order, and what is set before each. */
export const setSheet = (tunes: readonly RatedTune[]) => {
  const { lines, total } = tellSet(tunes);
  const tuning = tunes[0] === undefined ? '' : `The strings are tuned in ${tunes[0].tuning}. `;
  return {
    title: 'A set for the lever harp',
    legend: `${tuning}Changes: levers to set during the tune.`,
    heads: ['', 'No.', 'Title', 'Key', 'Changes', 'Before it'],
    rows: lines.map(({ tune, before, trouble }, place) => [
      `${place + 1}`,
      tune.number,
      cutText(tune.title, LONGEST_TITLE),
      tune.keyName,
      `${tune.changes}`,
      [before, trouble].filter((words) => words !== '').join('; '),
    ]),
    below: [total],
  };
};

/** The table as data, and the order of a set where one is wanted. */
export const reportTunes = (
  tunes: readonly RatedTune[],
  failures: readonly string[],
  set: boolean,
): TunesReport => ({
  tunes: tunes.map(({ levers: _levers, open: _open, ...line }) => line),
  set: set ? orderSet(tunes.map(({ levers }) => levers)) : null,
  together: tunesTogether(tunes),
  failures: [...failures],
});
