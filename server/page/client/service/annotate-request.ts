import {
  type Decisions,
  type DivisionAim,
  type HarpKind,
  type HarpName,
  harpOfPin,
} from '../../../../engine/index.ts';
import { STRINGS } from '../../strings/strings.ts';
import { type Choices, optionsOf } from '../options/choices.ts';
import { findKey, keyHeaders } from './service-key.ts';

/** A score file as it was chosen, and what was chosen about it. */
export interface ScoreFile {
  readonly name: string;
  readonly bytes: Uint8Array<ArrayBuffer>;
  /** Id of the part, where the user had to choose one. */
  readonly part: string | null;
  /** Number of the tune, where the user had to choose one. */
  readonly tune?: string;
  /** Number of the movement, where the user chose one; a PDF has all of them otherwise. */
  readonly movement?: string;
  /** The harp, where the user named one, or where it is not the one that the service would take. */
  readonly instrument?: HarpName;
  /** By what a file is known that a command follows, whatever it holds. */
  readonly followed?: string;
  /** What was decided about it by the command that follows it; the browser's own decisions take their place. */
  readonly decided?: Decisions;
  /** How the strings of a lever harp are tuned, where the tune is opened from a set. */
  readonly tuning?: string;
}

/** A score as it is to be annotated: with the user's look and decisions. */
export interface Order {
  readonly file: ScoreFile;
  /** Which kind of harp it is for. */
  readonly harp: HarpKind;
  readonly choices: Choices;
  readonly decisions: Decisions;
  /** Another edition, where not the part alone is wanted. */
  readonly edition?: 'study' | 'exercise' | 'card';
  /** Whether all harps of the score are wanted, in one archive. */
  readonly allHarps?: true;
  /** By which aim the part is to be divided, where both players' parts are wanted, in one archive. */
  readonly forTwo?: DivisionAim;
}

export type Answer<T> =
  | { readonly ok: true; readonly value: T }
  /** The sentence says what is wrong and what to do. */
  | { readonly ok: false; readonly sentence: string; readonly status: number };

/** What was chosen about the file itself, as options of the service. */
export const fileOptions = ({ part, tune, movement, instrument }: ScoreFile): object => ({
  ...(part === null ? {} : { part }),
  ...(tune === undefined ? {} : { tune }),
  ...(movement === undefined ? {} : { movement }),
  ...(instrument === undefined ? {} : { instrument }),
});

/** What a plan for one kind of harp can follow; the rest waits until the part is for the other again. */
export const decisionsFor = (
  harp: HarpKind,
  { pins, fullSettings, ...onNotes }: Decisions,
): Partial<Decisions> => ({
  ...onNotes,
  pins: pins.filter(({ kind }) => [harp, 'both'].includes(harpOfPin(kind))),
  ...(harp === 'pedal' ? { fullSettings } : {}),
});

/** What of an order is more than the part, as options of the service. */
const bindingOf = ({ edition, allHarps, forTwo }: Order): object => ({
  ...(edition === undefined ? {} : { edition }),
  ...(allHarps === true ? { allHarps } : {}),
  ...(forTwo === undefined ? {} : { divide: forTwo, player: 'all' }),
});

/** All options go into the form: what the user decided has no place in an address. */
const formOf = (order: Order, more: object): FormData => {
  const { file, harp, choices, decisions } = order;
  const form = new FormData();
  form.append(
    'options',
    JSON.stringify({
      ...optionsOf(choices, harp),
      ...fileOptions(file),
      ...bindingOf(order),
      ...decisionsFor(harp, decisions),
      ...more,
    }),
  );
  form.append('score', new Blob([file.bytes]), file.name);
  return form;
};

/** The plain words of a problem document (RFC 9457). */
export const explainProblem = (problem: unknown): string => {
  const { detail, title } = (problem ?? {}) as { detail?: unknown; title?: unknown };
  const told = [detail, title].find((each) => typeof each === 'string');
  return typeof told === 'string' ? told : STRINGS.score.failed;
};

const explain = async (response: Response): Promise<string> => {
  try {
    return explainProblem(await response.json());
  } catch {
    return STRINGS.score.failed;
  }
};

/**
 * Has the service annotate the score and answer in one of the media types of `accept`.
 *
 * @param more options that this media type alone has
 */
export const annotate = (
  order: Order,
  accept: string,
  signal: AbortSignal | null,
  more: object = {},
): Promise<Answer<Response>> => askService('v1/annotate', formOf(order, more), accept, signal);

/** Sends a form to the service, with a key where it wants one; what it refuses is told in its own words. */
export const askService = async (
  path: string,
  form: FormData,
  accept: string,
  signal: AbortSignal | null,
): Promise<Answer<Response>> => {
  try {
    const borne = keyHeaders();
    const headers = { Accept: accept, ...borne };
    const response = await fetch(path, { method: 'POST', headers, body: form, signal });
    if (response.ok) return { ok: true, value: response };
    if (response.status === 401 && (await findKey(borne))) return askService(path, form, accept, signal);
    return { ok: false, sentence: await explain(response), status: response.status };
  } catch (error) {
    if (signal?.aborted) throw error;
    return { ok: false, sentence: STRINGS.score.offline, status: 0 };
  }
};

/** The annotated pages, each an SVG document: one layout on the server for all of them. */
export const fetchPages = async (
  order: Order,
  signal: AbortSignal | null = null,
): Promise<Answer<readonly string[]>> => {
  const answer = await annotate(order, 'application/json', signal);
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
  order: Order,
  accept: string,
  signal: AbortSignal | null = null,
): Promise<Answer<FetchedFile>> => {
  const answer = await annotate(order, accept, signal);
  if (!answer.ok) return answer;
  const mediaType = answer.value.headers.get('Content-Type')?.split(';')[0] ?? '';
  return { ok: true, value: { blob: await answer.value.blob(), mediaType } };
};
