import * as z from 'zod';
import { listOptions, OPTION_GROUPS, type OptionGroup } from '../../../engine/index.ts';
import { OPTION_CATALOGUE } from '../../../render/pure.ts';
import { listValues } from '../../api/requests/list-values.ts';
import { type NamedOption, nameOptions } from '../../api/requests/read-options.ts';
import { flagOf } from './flags.ts';

const WIDTH = 110;
const INDENT = '      ';

/** Breaks words into lines that fit. */
const wrap = (text: string): readonly string[] => {
  const lines: string[] = [];
  for (const word of text.split(' ')) {
    const last = lines.at(-1);
    if (last === undefined || INDENT.length + last.length + 1 + word.length > WIDTH) lines.push(word);
    else lines[lines.length - 1] = `${last} ${word}`;
  }
  return lines;
};

const listWords = (words: readonly string[]): string => words.join(', ').replace(/, ([^,]*)$/, ' or $1');

/** How an option is written: a choice of yes or no stands alone, or says no. */
const writeOption = (option: NamedOption): string => {
  const flag = `--${flagOf(option.name)}`;
  return option.schema instanceof z.ZodBoolean
    ? `${flag}, ${flag}=false`
    : `${flag} ${listWords(listValues(option).map((each) => (each === 'string' ? 'TEXT' : each)))}`;
};

const describeOption = (option: NamedOption): readonly string[] => [
  ...wrap(writeOption(option)).map((line, i) => (i === 0 ? `  ${line}` : `${INDENT}    ${line}`)),
  ...wrap(option.description ?? '').map((line) => `${INDENT}${line}`),
];

const GROUP_OF: ReadonlyMap<string, OptionGroup> = new Map(
  listOptions(OPTION_CATALOGUE).map(({ name, group }) => [name, group]),
);

/** What of a schema can be given on a command line. */
export const describeOptions = (schema: z.ZodObject): readonly string[] =>
  nameOptions(schema).flatMap(describeOption);

/** The same under the headings of the catalogue. */
export const describeInGroups = (schema: z.ZodObject): readonly string[] =>
  Object.entries(OPTION_GROUPS).flatMap(([group, heading]) => {
    const options = nameOptions(schema).filter(({ name }) => (GROUP_OF.get(name) ?? 'part') === group);
    return options.length === 0 ? [] : [`${heading}:`, ...options.flatMap(describeOption), ''];
  });

/** The options of a command that takes few, by name alone: `[--part] [--foot-rest-seconds]`. */
export const nameFlags = (schema: z.ZodObject): string =>
  nameOptions(schema)
    .map(({ name }) => `[--${flagOf(name)}]`)
    .join(' ');
