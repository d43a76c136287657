import { readFile } from 'node:fs/promises';
import type { z } from 'zod';
import { checkOptions, readJson } from '../api/read-options.ts';
import { anyProblemMessage } from '../service-problem.ts';
import { type Ending, EXIT } from './exit.ts';
import { endWithSystemError } from './system-error.ts';

/** Options as a command line gives them. */
export interface GivenOptions {
  /** As JSON would hold them. */
  readonly named: Readonly<Record<string, unknown>>;
  /** A file with more of them as JSON; what the command line says goes before. */
  readonly file: string | null;
}

/** What was read, or how the command ends since it could not be. */
export type Read<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly ending: Ending };

export const readInput = async (path: string): Promise<Read<Buffer>> => {
  try {
    return { ok: true, value: await readFile(path) };
  } catch (error) {
    return { ok: false, ending: endWithSystemError(`cannot read ${path}`, error) };
  }
};

/** Puts the options of the command line and of a file together. */
export const readChoice = async <T extends z.ZodObject>(
  schema: T,
  { named, file }: GivenOptions,
): Promise<Read<z.infer<T>>> => {
  const content = file === null ? null : await readInput(file);
  if (content !== null && !content.ok) return content;
  const json = content === null ? { ok: true as const, value: {} } : readJson(content.value.toString('utf8'));
  if (!json.ok) {
    return { ok: false, ending: { code: EXIT.usage, message: `${file} is not a JSON object` } };
  }
  const checked = checkOptions(schema, { ...json.value, ...named });
  return checked.ok
    ? checked
    : { ok: false, ending: { code: EXIT.usage, message: anyProblemMessage(checked.problem) } };
};
