import { basename } from 'node:path';
import type { z } from 'zod';
import { DECISION_LISTS, MAX_SCORE_BYTES, NO_DECISIONS } from '../../../engine/index.ts';
import { findJsonExcess, JSON_LIMITS } from '../../api/requests/json-limits.ts';
import { checkOptions, readJson } from '../../api/requests/read-options.ts';
import { anyProblemMessage } from '../../service-problem.ts';
import type { ScoreFile } from '../../threads/job.ts';
import { EXIT, type Failed, resultOfProblem } from '../exit.ts';
import { readBounded } from '../read-bounded.ts';
import { resultOfSystemError } from '../system-error.ts';

/** Options as a command line gives them. */
export interface GivenOptions {
  /** As JSON would hold them. */
  readonly named: Readonly<Record<string, unknown>>;
  /** A file with more of them as JSON; what the command line says goes before. */
  readonly file: string | null;
  /** A file with the user's decisions as JSON: it goes before the decisions in the other file. */
  readonly decisions?: string;
}

/** What was read, or how the command ends since it could not be. */
export type Read<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly ending: Failed };

/** The bytes of any file of at most so many. */
export const readInput = async (path: string, limitBytes = MAX_SCORE_BYTES): Promise<Read<Buffer>> => {
  try {
    const read = await readBounded(path, limitBytes);
    if (read.kind === 'read') return { ok: true, value: read.bytes };
    const { foundBytes: found } = read;
    return {
      ok: false,
      ending: resultOfProblem(path, { code: 'limit-exceeded', what: 'bytes', limit: limitBytes, found }),
    };
  } catch (error) {
    return { ok: false, ending: resultOfSystemError(`cannot read ${path}`, error) };
  }
};

/** A score file, with the name that it has in its folder. */
export const readScoreFile = async (path: string): Promise<Read<ScoreFile>> => {
  const read = await readInput(path);
  return read.ok ? { ok: true, value: { bytes: read.value, fileName: basename(path) } } : read;
};

const usage = (message: string): { readonly ok: false; readonly ending: Failed } => ({
  ok: false,
  ending: { code: EXIT.usage, message },
});

const readObject = async (path: string): Promise<Read<Record<string, unknown>>> => {
  const content = await readInput(path, JSON_LIMITS.bytes);
  if (!content.ok) return content;
  const text = content.value.toString('utf8');
  const excess = findJsonExcess(text);
  if (excess !== null)
    return { ok: false, ending: { code: EXIT.refused, message: `${path} cannot be used: ${excess}` } };
  const json = readJson(text);
  return json.ok ? json : usage(`${path} is not a JSON object`);
};

/** A file of decisions replaces those that are saved in the score, lists that it does not name included. */
const readDecisionsFile = async (path: string): Promise<Read<Record<string, unknown>>> => {
  const decisions = await readObject(path);
  if (!decisions.ok) return decisions;
  const strange = Object.keys(decisions.value).find(
    (name) => !(DECISION_LISTS as readonly string[]).includes(name),
  );
  if (strange !== undefined) {
    return usage(
      `${path} contains “${strange}”, which is not a list of decisions. The lists are ${DECISION_LISTS.join(', ')}`,
    );
  }
  return { ok: true, value: { ...NO_DECISIONS, ...decisions.value } };
};

const NOTHING = { ok: true, value: {} } as const;

/** What a command about one score is asked: its options, and the file. */
export const readRequest = async <T extends z.ZodObject>(
  schema: T,
  { input, options }: { readonly input: string; readonly options: GivenOptions },
): Promise<Read<{ readonly choice: z.infer<T>; readonly file: ScoreFile }>> => {
  const choice = await readChoice(schema, options);
  if (!choice.ok) return choice;
  const file = await readScoreFile(input);
  return file.ok ? { ok: true, value: { choice: choice.value, file: file.value } } : file;
};

/** Puts the options of the command line and of its files together. */
export const readChoice = async <T extends z.ZodObject>(
  schema: T,
  { named, file, decisions }: GivenOptions,
): Promise<Read<z.infer<T>>> => {
  const options = file === null ? NOTHING : await readObject(file);
  if (!options.ok) return options;
  const own = decisions === undefined ? NOTHING : await readDecisionsFile(decisions);
  if (!own.ok) return own;
  const checked = checkOptions(schema, { ...options.value, ...own.value, ...named });
  return checked.ok
    ? checked
    : { ok: false, ending: { code: EXIT.usage, message: anyProblemMessage(checked.problem) } };
};
