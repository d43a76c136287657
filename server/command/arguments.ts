import { parseArgs } from 'node:util';
import { findNearest } from '../nearest.ts';
import { type Address, DEFAULT_ADDRESS } from '../serve.ts';
import { type OutputKind, outputKind, pathBeside } from './output-files.ts';

/** What the command line asks for. */
export type Command =
  | { readonly kind: 'help' }
  | { readonly kind: 'version' }
  | AnnotateCommand
  | { readonly kind: 'serve'; readonly address: Address };

export interface AnnotateCommand {
  readonly kind: 'annotate';
  readonly input: string;
  readonly output: string;
  readonly form: OutputKind;
  readonly part: string | null;
}

/** The command, or the sentence that says why there is none. */
export type Parsed =
  | { readonly ok: true; readonly command: Command }
  | { readonly ok: false; readonly usage: string };

interface Environment {
  readonly PORT?: string | undefined;
  readonly HOST?: string | undefined;
}

interface Flag {
  readonly type: 'string' | 'boolean';
  readonly short?: string;
}

type Flags = Readonly<Record<string, Flag>>;

interface Words {
  readonly values: ReadonlyMap<string, string>;
  readonly switches: ReadonlySet<string>;
  readonly positionals: readonly string[];
}

const EVERYWHERE: Flags = { help: { type: 'boolean', short: 'h' }, version: { type: 'boolean' } };

const FLAGS: Readonly<Record<'annotate' | 'serve', Flags>> = {
  annotate: { ...EVERYWHERE, output: { type: 'string', short: 'o' }, part: { type: 'string' } },
  serve: { ...EVERYWHERE, port: { type: 'string' }, host: { type: 'string' } },
};

const COMMANDS = ['annotate', 'serve'] as const;

const isCommand = (word: string): word is (typeof COMMANDS)[number] =>
  (COMMANDS as readonly string[]).includes(word);

const wrong = (usage: string): { readonly ok: false; readonly usage: string } => ({ ok: false, usage });

const hint = (nearest: string | null): string =>
  nearest === null ? 'See tringle --help.' : `Did you mean “${nearest}”?`;

/** Sorts words into options and the rest; an option that is not known, or lacks its value, is told by name. */
const sortWords = (words: readonly string[], flags: Flags): Words | { readonly usage: string } => {
  const { tokens } = parseArgs({
    args: [...words],
    options: { ...flags },
    strict: false,
    allowPositionals: true,
    tokens: true,
  });
  const values = new Map<string, string>();
  const switches = new Set<string>();
  const positionals: string[] = [];
  for (const token of tokens) {
    if (token.kind === 'positional') positionals.push(token.value);
    if (token.kind !== 'option') continue;
    const flag = Object.hasOwn(flags, token.name) ? flags[token.name] : undefined;
    if (flag === undefined) {
      const nearest = findNearest(token.name, Object.keys(flags));
      return {
        usage: `there is no option “${token.rawName}”. ${hint(nearest === null ? null : `--${nearest}`)}`,
      };
    }
    if (flag.type === 'boolean') {
      if (token.value !== undefined) return { usage: `${token.rawName} takes no value` };
      switches.add(token.name);
      continue;
    }
    if (token.value === undefined || token.value === '') return { usage: `${token.rawName} needs a value` };
    if (values.has(token.name)) return { usage: `${token.rawName} is given twice` };
    values.set(token.name, token.value);
  }
  return { values, switches, positionals };
};

const readAnnotate = ({ values, positionals }: Words): Parsed => {
  const [input, ...more] = positionals;
  if (input === undefined) return wrong('annotate needs a file. See tringle --help.');
  if (more.length > 0) {
    return wrong(`annotate takes one file, but “${more.join('”, “')}” came after “${input}”`);
  }
  const output = values.get('output') ?? pathBeside(input);
  const form = outputKind(output);
  if (form === null) {
    return wrong(`the name “${output}” does not say what to write: end it with .pdf, .svg or .json`);
  }
  return { ok: true, command: { kind: 'annotate', input, output, form, part: values.get('part') ?? null } };
};

/**
 * The address to listen at: options first, then the environment's `PORT` and `HOST`, then port 8017 of this machine alone.
 */
const readAddress = (values: ReadonlyMap<string, string>, environment: Environment): Parsed => {
  const port = values.get('port') ?? environment.PORT ?? `${DEFAULT_ADDRESS.port}`;
  if (!/^\d{1,5}$/.test(port) || Number(port) > 65_535) {
    return wrong(`“${port}” is no port: use a number from 0 to 65535`);
  }
  const host = values.get('host') ?? environment.HOST ?? DEFAULT_ADDRESS.host;
  return { ok: true, command: { kind: 'serve', address: { host, port: Number(port) } } };
};

const readServe = ({ values, positionals }: Words, environment: Environment): Parsed =>
  positionals.length > 0
    ? wrong(`serve takes no file: “${positionals[0]}”`)
    : readAddress(values, environment);

/**
 * Reads a command line.
 *
 * @param words what follows the program's name
 * @param environment where `PORT` and `HOST` are looked up
 */
export const readArguments = (words: readonly string[], environment: Environment): Parsed => {
  const [first, ...rest] = words;
  if (first === undefined) return wrong('nothing to do. See tringle --help.');
  const named = isCommand(first);
  if (!named && !first.startsWith('-')) {
    return wrong(`there is no command “${first}”. ${hint(findNearest(first, COMMANDS))}`);
  }
  const sorted = sortWords(named ? rest : words, named ? FLAGS[first] : EVERYWHERE);
  if ('usage' in sorted) return wrong(sorted.usage);
  if (sorted.switches.has('help')) return { ok: true, command: { kind: 'help' } };
  if (sorted.switches.has('version')) return { ok: true, command: { kind: 'version' } };
  if (first === 'annotate') return readAnnotate(sorted);
  if (first === 'serve') return readServe(sorted, environment);
  return wrong('name a command. See tringle --help.');
};
