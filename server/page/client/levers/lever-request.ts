import type { CompareReport } from '../../../api/answers/comparison.ts';
import type { LeverAnnotateReport } from '../../../api/answers/lever-report.ts';
import { STRINGS } from '../../strings.ts';
import { optionsOf } from '../options/choices.ts';
import {
  type Answer,
  askService,
  bindingOf,
  decisionsFor,
  type FetchedFile,
  fileOptions,
  type Order,
  type ScoreFile,
} from '../service/annotate-request.ts';

const formOf = (file: ScoreFile, options: object): FormData => {
  const form = new FormData();
  form.append('options', JSON.stringify({ ...options, ...fileOptions(file) }));
  form.append('score', new Blob([file.bytes]), file.name);
  return form;
};

const readReport = async <T>(
  answer: Answer<Response>,
  kind: (found: unknown) => found is T,
): Promise<Answer<T>> => {
  if (!answer.ok) return answer;
  const found: unknown = await answer.value.json();
  return kind(found)
    ? { ok: true, value: found }
    : { ok: false, sentence: STRINGS.score.failed, status: answer.value.status };
};

const isLeverReport = (found: unknown): found is LeverAnnotateReport =>
  typeof found === 'object' && found !== null && Reflect.get(found, 'harp') === 'lever';

const isComparison = (found: unknown): found is CompareReport =>
  typeof found === 'object' && found !== null && Reflect.has(found, 'transpositions');

const orderForm = (order: Order): FormData =>
  formOf(order.file, {
    ...optionsOf(order.choices, 'lever'),
    ...bindingOf(order),
    ...decisionsFor('lever', order.decisions),
  });

/** The plan of the levers with its pages. */
export const fetchLevers = async (
  order: Order,
  signal: AbortSignal | null,
): Promise<Answer<LeverAnnotateReport>> =>
  readReport(await askService('v1/annotate', orderForm(order), 'application/json', signal), isLeverReport);

/** How the part goes on both harps. */
export const fetchComparison = async (file: ScoreFile, signal: AbortSignal): Promise<Answer<CompareReport>> =>
  readReport(await askService('v1/compare', formOf(file, {}), 'application/json', signal), isComparison);

/** The part as a file of one of the media types. */
export const fetchLeverFile = async (order: Order, accept: string): Promise<Answer<FetchedFile>> => {
  const answer = await askService('v1/annotate', orderForm(order), accept, null);
  if (!answer.ok) return answer;
  const mediaType = answer.value.headers.get('Content-Type')?.split(';')[0] ?? '';
  return { ok: true, value: { blob: await answer.value.blob(), mediaType } };
};
