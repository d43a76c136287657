import type { AttemptReport } from '../../../api/answers/attempt-report.ts';
import type { ProofReport } from '../../../api/answers/proof-report.ts';
import { ANY_SOURCE, PDF } from '../downloads/taken-files.ts';
import type { Choices } from '../options/choices.ts';
import { type Answer, askService, type FetchedFile, type ScoreFile } from '../service/annotate-request.ts';
import { formOf } from '../service/report-request.ts';

/** What the markings in a file lead to. */
export const fetchProof = async (file: ScoreFile, signal: AbortSignal): Promise<Answer<ProofReport>> => {
  const answer = await askService('v1/proof', formOf(file, {}), 'application/json', signal);
  return answer.ok ? { ok: true, value: (await answer.value.json()) as ProofReport } : answer;
};

const fetchAs = async (
  path: 'v1/proof' | 'v1/mark',
  file: ScoreFile,
  options: object,
  accept: string,
): Promise<Answer<FetchedFile>> => {
  const answer = await askService(path, formOf(file, options), accept, null);
  if (!answer.ok) return answer;
  const mediaType = answer.value.headers.get('Content-Type')?.split(';')[0] ?? '';
  return { ok: true, value: { blob: await answer.value.blob(), mediaType } };
};

/** The file with some edits made, by their indices. */
export const fetchRepaired = (file: ScoreFile, edits: readonly number[]): Promise<Answer<FetchedFile>> =>
  fetchAs('v1/proof', file, { edits: edits.join(',') }, ANY_SOURCE);

/** The part on pages, with its faults and edits. */
export const fetchProofPages = (
  file: ScoreFile,
  choices: Choices,
  type: string,
): Promise<Answer<FetchedFile>> => fetchAs('v1/proof', file, toldBy(choices), type);

/** In the language of study sheets. */
const toldBy = ({ language, naming }: Choices) => ({
  ...(language === undefined ? {} : { language }),
  ...(naming === undefined ? {} : { naming }),
});

/** How an attempt is marked: with points. */
const markedBy = (choices: Choices) => ({ points: true, ...toldBy(choices) });

/** The part as PDF, its markings judged as a pupil’s attempt. */
export const fetchMarkedPdf = (file: ScoreFile, choices: Choices): Promise<Answer<FetchedFile>> =>
  fetchAs('v1/mark', file, markedBy(choices), PDF);

/** The same as a report with its pages. */
export const fetchMarked = async (
  file: ScoreFile,
  choices: Choices,
  signal: AbortSignal,
): Promise<Answer<AttemptReport>> => {
  const options = { ...markedBy(choices), pages: 'all' };
  const answer = await askService('v1/mark', formOf(file, options), 'application/json', signal);
  return answer.ok ? { ok: true, value: (await answer.value.json()) as AttemptReport } : answer;
};
