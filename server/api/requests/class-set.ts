import * as z from 'zod';
import { fail, type Outcome } from '../../service-problem.ts';
import { nameOf } from './option-schemas.ts';
import type { AnnotateChoice } from './options.ts';

/** Which tunes of tune books are wanted. */
export const tunesShape = {
  only: z
    .string()
    .max(10_000)
    .refine((text) => readTuneList(text).length > 0, 'it must have the number or the title of a tune')
    .exactOptional()
    .meta({
      description:
        'Which tunes of an ABC file with several are wanted, in this order: numbers (X:) and titles, parted by semicolons, or by commas where each part is one. All if not given.',
    }),
};

/** What a class set is called. */
export const setTitleShape = {
  setTitle: nameOf('a title', 200).exactOptional().meta({
    description:
      'The title of a class set, over its contents. If not given, “Class set” in the language of the sheets.',
  }),
};

/** Numbers alone, which books that were put together have with a count behind them (`3-2`). */
const NUMBERS = /^[\d\s,-]+$/u;

/** What tunes are called in a list of them. */
export const readTuneList = (text: string): readonly string[] =>
  text
    .split(';')
    .flatMap((part) => (NUMBERS.test(part) ? part.split(',') : [part]))
    .map((name) => name.trim())
    .filter((name) => name !== '');

/** @returns `bad-option` for what cannot be bound into a class set */
export const checkClassSet = ({ allHarps, edition }: AnnotateChoice): Outcome<null> => {
  if (allHarps === true) return refuse('allHarps', 'true', 'false: a class set has one part of each score');
  if (edition === 'card') return refuse('edition', edition, 'part or study: cards have a size of their own');
  return { ok: true, value: null };
};

const refuse = (option: string, value: string, expected: string) =>
  fail({ code: 'bad-option', option, value, expected });

/** @returns `bad-option` for a title of what is no class set */
export const checkSetTitle = (setTitle: string | undefined, output: string): Outcome<null> =>
  setTitle === undefined || output === 'class-set'
    ? { ok: true, value: null }
    : refuse('setTitle', setTitle, 'given only with the output class-set');
