import { parseArgs } from 'node:util';
import * as z from 'zod';
import { findNearest } from '../../api/requests/nearest-word.ts';
import { type NamedOption, nameOptions } from '../../api/requests/read-options.ts';

/** What follows a flag: always a word, never one, or one behind `=` if any (then it is `true` without). */
type FlagKind = 'value' | 'switch' | 'choice';

export interface Flag {
  readonly kind: FlagKind;
  readonly short?: string;
}

export type Flags = Readonly<Record<string, Flag>>;

/** The words of a command line, sorted. */
export interface Words {
  readonly values: ReadonlyMap<string, string>;
  readonly switches: ReadonlySet<string>;
  readonly positionals: readonly string[];
}

export const EVERYWHERE: Flags = { help: { kind: 'switch', short: 'h' }, version: { kind: 'switch' } };

/** The flag of an option of the API: `settings.afterRestBars` is `--settings-after-rest-bars`. */
export const flagOf = (option: string): string =>
  option.replace('.', '-').replace(/[A-Z]/g, (capital) => `-${capital.toLowerCase()}`);

const flagKind = ({ schema }: NamedOption): FlagKind => (schema instanceof z.ZodBoolean ? 'choice' : 'value');

/** A flag for every option that has a name. */
export const flagsFor = (schema: z.ZodObject): Flags =>
  Object.fromEntries(nameOptions(schema).map((option) => [flagOf(option.name), { kind: flagKind(option) }]));

/** The options among sorted words, by their names in the API. */
export const optionsAmong = (schema: z.ZodObject, { values }: Words): readonly [string, string][] =>
  nameOptions(schema).flatMap(({ name }): [string, string][] => {
    const value = values.get(flagOf(name));
    return value === undefined ? [] : [[name, value]];
  });

export const hint = (nearest: string | null): string =>
  nearest === null ? 'See tringle --help.' : `Did you mean “${nearest}”?`;

const tokensOf = (words: readonly string[], flags: Flags) =>
  parseArgs({
    args: [...words],
    options: Object.fromEntries(
      Object.entries(flags).map(([name, { kind, short }]) => [
        name,
        {
          type: kind === 'value' ? ('string' as const) : ('boolean' as const),
          ...(short === undefined ? {} : { short }),
        },
      ]),
    ),
    strict: false,
    allowPositionals: true,
    tokens: true,
  }).tokens;

/** Sorts words into options and the rest; an option that is not known, or lacks its value, is told by name. */
export const sortWords = (words: readonly string[], flags: Flags): Words | { readonly usage: string } => {
  const values = new Map<string, string>();
  const switches = new Set<string>();
  const positionals: string[] = [];
  for (const token of tokensOf(words, flags)) {
    if (token.kind === 'positional') positionals.push(token.value);
    if (token.kind !== 'option') continue;
    const { name, rawName } = token;
    const flag = Object.hasOwn(flags, name) ? flags[name] : undefined;
    if (flag === undefined) {
      const nearest = findNearest(name, Object.keys(flags));
      return { usage: `there is no option “${rawName}”. ${hint(nearest === null ? null : `--${nearest}`)}` };
    }
    if (flag.kind === 'switch') {
      if (token.value !== undefined) return { usage: `${rawName} takes no value` };
      switches.add(name);
      continue;
    }
    const value = flag.kind === 'choice' ? (token.value ?? 'true') : token.value;
    if (value === undefined || value === '') return { usage: `${rawName} needs a value` };
    if (values.has(name)) return { usage: `${rawName} is given twice` };
    values.set(name, value);
  }
  return { values, switches, positionals };
};
