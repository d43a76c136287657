import type { z } from 'zod';
import { readNamed } from '../../api/requests/read-options.ts';
import { anyProblemMessage } from '../../service-problem.ts';
import { OUTPUT_KINDS, type OutputKind } from '../output-files.ts';
import type { GivenOptions } from './choice.ts';
import { optionsAmong, type Words } from './flags.ts';

export const wrong = (usage: string): { readonly ok: false; readonly usage: string } => ({
  ok: false,
  usage,
});

export type Given = { readonly ok: true; readonly options: GivenOptions } | ReturnType<typeof wrong>;

export const readGiven = (schema: z.ZodObject, words: Words): Given => {
  const named = readNamed(schema, optionsAmong(schema, words));
  if (!named.ok) return wrong(anyProblemMessage(named.problem));
  const { values } = words;
  const decisions = values.get('decisions');
  const options = { named: named.value, file: values.get('options') ?? null };
  return { ok: true, options: decisions === undefined ? options : { ...options, decisions } };
};

export const isOutputKind = (word: string): word is OutputKind =>
  (OUTPUT_KINDS as readonly string[]).includes(word);
