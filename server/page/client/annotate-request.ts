import { STRINGS } from '../strings.ts';
import type { Choices } from './choices.ts';

/** A score file as it was chosen, and what was chosen about it. */
export interface ScoreFile {
  readonly name: string;
  readonly bytes: Uint8Array<ArrayBuffer>;
  /** Id of the part, where the user had to choose one. */
  readonly part: string | null;
}

export type Answer<T> =
  | { readonly ok: true; readonly value: T }
  /** The sentence says what is wrong and what to do. */
  | { readonly ok: false; readonly sentence: string; readonly status: number };

const addressOf = (file: ScoreFile, choices: Choices): string => {
  const query = new URLSearchParams({ ...choices, ...(file.part === null ? {} : { part: file.part }) });
  return `v1/annotate?${query}`;
};

/** The plain words of a problem document (RFC 9457). */
const explain = async (response: Response): Promise<string> => {
  try {
    const { detail, title } = (await response.json()) as { detail?: unknown; title?: unknown };
    const told = [detail, title].find((each) => typeof each === 'string');
    return typeof told === 'string' ? told : STRINGS.score.failed;
  } catch {
    return STRINGS.score.failed;
  }
};

/** Has the service annotate the score and answer in one of the media types of `accept`. */
const annotate = async (
  file: ScoreFile,
  choices: Choices,
  accept: string,
  signal: AbortSignal | null,
): Promise<Answer<Response>> => {
  try {
    const response = await fetch(addressOf(file, choices), {
      method: 'POST',
      headers: { Accept: accept, 'Content-Type': 'application/octet-stream' },
      body: file.bytes,
      signal,
    });
    if (response.ok) return { ok: true, value: response };
    return { ok: false, sentence: await explain(response), status: response.status };
  } catch (error) {
    if (signal?.aborted) throw error;
    return { ok: false, sentence: STRINGS.score.offline, status: 0 };
  }
};

/** The annotated pages, each an SVG document: one layout on the server for all of them. */
export const fetchPages = async (
  file: ScoreFile,
  choices: Choices,
  signal: AbortSignal,
): Promise<Answer<readonly string[]>> => {
  const answer = await annotate(file, choices, 'application/json', signal);
  if (!answer.ok) return answer;
  const { pages } = (await answer.value.json()) as { pages?: unknown };
  const isList = Array.isArray(pages) && pages.every((page) => typeof page === 'string');
  return isList
    ? { ok: true, value: pages }
    : { ok: false, sentence: STRINGS.score.failed, status: answer.value.status };
};

export interface FetchedFile {
  readonly blob: Blob;
  readonly mediaType: string;
}

/** The score as a file of one of the media types. */
export const fetchFile = async (
  file: ScoreFile,
  choices: Choices,
  accept: string,
): Promise<Answer<FetchedFile>> => {
  const answer = await annotate(file, choices, accept, null);
  if (!answer.ok) return answer;
  const mediaType = answer.value.headers.get('Content-Type')?.split(';')[0] ?? '';
  return { ok: true, value: { blob: await answer.value.blob(), mediaType } };
};
