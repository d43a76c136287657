import { readFile } from 'node:fs/promises';
import type { z } from 'zod';
import { DECISION_LISTS, NO_DECISIONS } from '../../engine/index.ts';
import { checkOptions, readJson } from '../api/read-options.ts';
import { anyProblemMessage } from '../service-problem.ts';
import { type CommandResult, EXIT } from './exit.ts';
import { resultOfSystemError } from './system-error.ts';

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
  | { readonly ok: false; readonly ending: CommandResult };

export const readInput = async (path: string): Promise<Read<Buffer>> => {
  try {
    return { ok: true, value: await readFile(path) };
  } catch (error) {
    return { ok: false, ending: resultOfSystemError(`cannot read ${path}`, error) };
  }
};

const usage = (message: string): { readonly ok: false; readonly ending: CommandResult } => ({
  ok: false,
  ending: { code: EXIT.usage, message },
});

const readObject = async (path: string): Promise<Read<Record<string, unknown>>> => {
  const content = await readInput(path);
  if (!content.ok) return content;
  const json = readJson(content.value.toString('utf8'));
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
