import type { LeverAnnotateReport } from '../../../api/answers/lever-report.ts';
import { optionsOf } from '../options/choices.ts';
import {
  type Answer,
  askService,
  bindingOf,
  decisionsFor,
  type FetchedFile,
  type Order,
} from '../service/annotate-request.ts';
import { formOf, readReport } from '../service/report-request.ts';

const isLeverReport = (found: unknown): found is LeverAnnotateReport =>
  typeof found === 'object' && found !== null && Reflect.get(found, 'harp') === 'lever';

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

/** The part as a file of one of the media types. */
export const fetchLeverFile = async (order: Order, accept: string): Promise<Answer<FetchedFile>> => {
  const answer = await askService('v1/annotate', orderForm(order), accept, null);
  if (!answer.ok) return answer;
  const mediaType = answer.value.headers.get('Content-Type')?.split(';')[0] ?? '';
  return { ok: true, value: { blob: await answer.value.blob(), mediaType } };
};
