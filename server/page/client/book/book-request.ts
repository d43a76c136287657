import type { HarpName } from '../../../../engine/index.ts';
import type { SetMusic } from '../../../../render/pure.ts';
import type { TunesReport } from '../../../api/answers/tune-table.ts';
import { STRINGS } from '../../strings/strings.ts';
import { type Answer, askService, type ScoreFile } from '../service/annotate-request.ts';
import { type BookSet, type BookState, type BookTable, type FoundSet, linesOfBook } from './book-memory.ts';

/** How far other keys are looked for, in semitones: within it a tune stays singable. */
const MOST_SEMITONES = 5;

export type TableWish = Pick<BookTable, 'harp' | 'betterKeys'>;

const formOf = (file: ScoreFile, { harp, betterKeys }: TableWish, options: object): FormData => {
  const form = new FormData();
  const wish = { instrument: harp, ...(betterKeys ? { maxSemitones: MOST_SEMITONES } : {}), ...options };
  form.append('options', JSON.stringify(wish));
  form.append('score', new Blob([file.bytes]), file.name);
  return form;
};

const isTable = (found: unknown): found is TunesReport =>
  typeof found === 'object' && found !== null && Array.isArray(Reflect.get(found, 'tunes'));

/** What each tune of the book asks of a lever harp. */
export const fetchTable = async (
  file: ScoreFile,
  wish: TableWish,
  signal: AbortSignal,
): Promise<Answer<Omit<BookTable, keyof TableWish>>> => {
  const answer = await askService('v1/tunes', formOf(file, wish, {}), 'application/json', signal);
  if (!answer.ok) return answer;
  const found: unknown = await answer.value.json();
  return isTable(found)
    ? { ok: true, value: { tunes: found.tunes, together: found.together, failures: found.failures } }
    : { ok: false, sentence: STRINGS.score.failed, status: answer.value.status };
};

/** The table as it is shown, as a file of a media type. */
export const fetchTableFile = async (
  file: ScoreFile,
  wish: TableWish,
  state: BookState,
  type: string,
): Promise<Answer<Blob>> => {
  const shown = state.table === null ? [] : linesOfBook(state.table, state);
  const only = state.find.trim() === '' ? {} : { only: shown.map(({ number }) => number).join(',') };
  const { mostChanges, ...filter } = state.filter;
  const options = { sort: state.sort, ...filter, ...(mostChanges === null ? {} : { mostChanges }), ...only };
  const answer = await askService('v1/tunes', formOf(file, wish, options), type, null);
  return answer.ok ? { ok: true, value: await answer.value.blob() } : answer;
};

const setForm = (
  file: ScoreFile,
  harp: HarpName,
  { chosen, tuning }: BookSet,
  sheet: { readonly music?: SetMusic } = {},
): FormData => {
  const options = { set: true, only: chosen.join(','), ...(tuning === null ? {} : { tuning }), ...sheet };
  return formOf(file, { harp, betterKeys: false }, options);
};

/** The order of a set with the fewest lever changes between its tunes. */
export const fetchSet = async (
  file: ScoreFile,
  harp: HarpName,
  set: BookSet,
  signal: AbortSignal,
): Promise<Answer<FoundSet>> => {
  const answer = await askService('v1/tunes', setForm(file, harp, set), 'application/json', signal);
  if (!answer.ok) return answer;
  const found: unknown = await answer.value.json();
  return isTable(found) && found.set !== null
    ? { ok: true, value: { tunes: found.tunes, set: found.set } }
    : { ok: false, sentence: STRINGS.score.failed, status: answer.value.status };
};

/** The set as sheets to print, with as much of its music as is wanted. */
export const fetchSetSheet = async (
  file: ScoreFile,
  harp: HarpName,
  set: BookSet,
  music: SetMusic,
): Promise<Answer<Blob>> => {
  const answer = await askService('v1/tunes', setForm(file, harp, set, { music }), 'application/pdf', null);
  return answer.ok ? { ok: true, value: await answer.value.blob() } : answer;
};
