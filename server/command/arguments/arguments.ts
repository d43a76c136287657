import { basename, extname, join } from 'node:path';
import type { z } from 'zod';
import { TUNE_SORTS, type TuneFilter, type TuneSort, type TuneSummary } from '../../../engine/index.ts';
import { HANDOUT_NAMES, type HandoutName } from '../../../render/pure.ts';
import { type Address, DEFAULT_ADDRESS } from '../../address.ts';
import { compareOptions } from '../../api/answers/comparison.ts';
import { divideOptions } from '../../api/answers/division.ts';
import { glissandoOptions } from '../../api/answers/glissandi.ts';
import { settingAtBarOptions, settingOptions } from '../../api/answers/settings.ts';
import { handoutLook } from '../../api/requests/handouts.ts';
import { findNearest } from '../../api/requests/nearest-word.ts';
import {
  annotateOptions,
  fixesOptions,
  markOptions,
  planOptions,
  proofOptions,
} from '../../api/requests/options.ts';
import { readNamed } from '../../api/requests/read-options.ts';
import { anyProblemMessage } from '../../service-problem.ts';
import { OUTPUT_KINDS, type OutputKind, outputKind, pathBeside } from '../output-files.ts';
import type { GivenOptions } from './choice.ts';
import { EVERYWHERE, type Flags, flagsFor, hint, optionsAmong, sortWords, type Words } from './flags.ts';

/** What the command line asks for. */
export type Command =
  | { readonly kind: 'help' }
  | { readonly kind: 'version' }
  | AnnotateCommand
  | PlanCommand
  | ProofCommand
  | MarkCommand
  | CompareCommand
  | FixesCommand
  | DivideCommand
  | TunesCommand
  | GlissandiCommand
  | SettingCommand
  | WatchCommand
  | HandoutCommand
  | PackCommand
  | { readonly kind: 'serve'; readonly address: Address };

/** A file to read, and what is made of it. */
export interface FilePair {
  readonly input: string;
  readonly output: string;
  /** The tune of a tune book. */
  readonly tune?: TuneSummary;
}

export interface AnnotateCommand {
  readonly kind: 'annotate';
  readonly files: readonly FilePair[];
  readonly form: OutputKind;
  /** The folder that the outputs go to; null where one file is written by its own name. */
  readonly folder: string | null;
  readonly options: GivenOptions;
}

export interface PlanCommand {
  readonly kind: 'plan';
  readonly input: string;
  readonly json: boolean;
  readonly options: GivenOptions;
}

export interface ProofCommand {
  readonly kind: 'proof';
  readonly inputs: readonly string[];
  /** Where the corrected file or the report on pages goes; null where none is asked for. */
  readonly output: string | null;
  readonly json: boolean;
  readonly options: GivenOptions;
}

/** A pupil's attempt to be marked. */
export interface MarkCommand {
  readonly kind: 'mark';
  readonly input: string;
  /** Where the marked pages go; null where none are asked for. */
  readonly output: string | null;
  readonly json: boolean;
  readonly options: GivenOptions;
}

export interface FixesCommand {
  readonly kind: 'fixes';
  readonly input: string;
  readonly json: boolean;
  readonly options: GivenOptions;
}

export interface DivideCommand {
  readonly kind: 'divide';
  readonly input: string;
  /** The input's name without folder and ending. */
  readonly name: string;
  readonly folder: string;
  readonly form: OutputKind;
  readonly options: GivenOptions;
}

export interface CompareCommand {
  readonly kind: 'compare';
  readonly input: string;
  readonly json: boolean;
  readonly options: GivenOptions;
}

/** In which order tunes are listed: as in the file, or by what they ask of the player. */
export interface TunesCommand extends TuneFilter {
  readonly kind: 'tunes';
  readonly inputs: readonly string[];
  readonly form: 'table' | 'csv' | 'json';
  /** A PDF or SVG to be written instead; null for none. */
  readonly output: string | null;
  readonly sort: TuneSort;
  /** Whether the best order for playing one after the other is wanted. */
  readonly set: boolean;
  readonly options: GivenOptions;
}

export interface GlissandiCommand {
  readonly kind: 'glissandi';
  readonly json: boolean;
  readonly options: GivenOptions;
}

export interface WatchCommand {
  readonly kind: 'watch';
  readonly input: string;
  readonly options: GivenOptions;
}

export interface SettingCommand {
  readonly kind: 'setting';
  /** The score at a bar of which the pedals stand so; null where the setting itself is given. */
  readonly input: string | null;
  readonly json: boolean;
  readonly options: GivenOptions;
}

/** Several pieces as one class set. */
export interface PackCommand {
  readonly kind: 'pack';
  readonly inputs: readonly string[];
  readonly output: string;
  readonly options: GivenOptions;
}

export interface HandoutCommand {
  readonly kind: 'handout';
  readonly name: HandoutName;
  readonly output: string;
  readonly form: 'pdf' | 'svg';
  readonly options: GivenOptions;
}

/** The command, or the sentence that says why there is none. */
export type Parsed =
  | { readonly ok: true; readonly command: Command }
  | { readonly ok: false; readonly usage: string };

interface Environment {
  readonly PORT?: string | undefined;
  readonly HOST?: string | undefined;
}

/** On the command line pages are files, and all are written; all edits of a repair are made. */
export const annotateChoice = annotateOptions.omit({ page: true, pages: true });

export const proofChoice = proofOptions.omit({ page: true, edits: true });

export const markChoice = markOptions.omit({ page: true });
/** Pieces are chosen as files; decisions are those of one. */
export const packChoice = annotateChoice.omit({ allHarps: true, part: true, tune: true });

const VALUE = { kind: 'value' } as const;
const SWITCH = { kind: 'switch' } as const;

const FLAGS = {
  annotate: {
    ...EVERYWHERE,
    output: { kind: 'value', short: 'o' },
    'out-dir': VALUE,
    to: VALUE,
    options: VALUE,
    decisions: VALUE,
    ...flagsFor(annotateChoice),
  },
  pack: {
    ...EVERYWHERE,
    output: { kind: 'value', short: 'o' },
    options: VALUE,
    ...flagsFor(packChoice),
  },
  plan: { ...EVERYWHERE, json: SWITCH, options: VALUE, decisions: VALUE, ...flagsFor(planOptions) },
  proof: {
    ...EVERYWHERE,
    json: SWITCH,
    options: VALUE,
    output: { kind: 'value', short: 'o' },
    ...flagsFor(proofChoice),
  },
  mark: {
    ...EVERYWHERE,
    json: SWITCH,
    options: VALUE,
    output: { kind: 'value', short: 'o' },
    ...flagsFor(markChoice),
  },
  compare: { ...EVERYWHERE, json: SWITCH, options: VALUE, ...flagsFor(compareOptions) },
  divide: {
    ...EVERYWHERE,
    'out-dir': VALUE,
    to: VALUE,
    options: VALUE,
    ...flagsFor(divideOptions),
  },
  fixes: { ...EVERYWHERE, json: SWITCH, options: VALUE, decisions: VALUE, ...flagsFor(fixesOptions) },
  tunes: {
    ...EVERYWHERE,
    json: SWITCH,
    csv: SWITCH,
    set: SWITCH,
    sort: VALUE,
    only: VALUE,
    playable: SWITCH,
    'as-tuned': SWITCH,
    'most-changes': VALUE,
    output: { kind: 'value', short: 'o' },
    options: VALUE,
    ...flagsFor(compareOptions),
  },
  glissandi: { ...EVERYWHERE, json: SWITCH, from: VALUE },
  watch: { ...EVERYWHERE, options: VALUE, decisions: VALUE, ...flagsFor(planOptions) },
  setting: {
    ...EVERYWHERE,
    json: SWITCH,
    options: VALUE,
    decisions: VALUE,
    ...flagsFor(settingAtBarOptions),
  },
  handout: { ...EVERYWHERE, output: { kind: 'value', short: 'o' }, ...flagsFor(handoutLook) },
  serve: { ...EVERYWHERE, port: VALUE, host: VALUE },
} as const satisfies Readonly<Record<string, Flags>>;

type CommandName = keyof typeof FLAGS;

const COMMANDS = Object.keys(FLAGS) as CommandName[];

const isCommand = (word: string): word is CommandName => Object.hasOwn(FLAGS, word);

const wrong = (usage: string): { readonly ok: false; readonly usage: string } => ({ ok: false, usage });

type Given = { readonly ok: true; readonly options: GivenOptions } | ReturnType<typeof wrong>;

const readGiven = (schema: z.ZodObject, words: Words): Given => {
  const named = readNamed(schema, optionsAmong(schema, words));
  if (!named.ok) return wrong(anyProblemMessage(named.problem));
  const { values } = words;
  const decisions = values.get('decisions');
  const options = { named: named.value, file: values.get('options') ?? null };
  return { ok: true, options: decisions === undefined ? options : { ...options, decisions } };
};

const isOutputKind = (word: string): word is OutputKind => (OUTPUT_KINDS as readonly string[]).includes(word);

const readAnnotate = (words: Words): Parsed => {
  const { values, positionals } = words;
  const given = readGiven(annotateChoice, words);
  if (!given.ok) return given;
  const [input, ...more] = positionals;
  if (input === undefined) return wrong('annotate needs a file to read. See tringle --help.');
  const folder = values.get('out-dir') ?? null;
  const output = values.get('output');
  if (folder !== null) {
    if (output !== undefined) return wrong('use either --output or --out-dir, not both');
    return readFolder(positionals, folder, values.get('to') ?? 'pdf', given.options);
  }
  if (values.get('all-harps') === 'true')
    return wrong('--all-harps writes several files: name their folder with --out-dir');
  if (values.has('to'))
    return wrong('--to works only with --out-dir; with --output, the ending of the name says what to write');
  if (more.length > 0) {
    const truth = more.find((word) => word === 'true' || word === 'false');
    if (truth !== undefined)
      return wrong(
        `“${truth}” does not belong to any option: join it with an equals sign, as in --option=${truth}`,
      );
    return wrong(
      `without --out-dir, annotate takes one file, but “${more.join('”, “')}” came after “${input}”`,
    );
  }
  const path = output ?? pathBeside(input);
  const form = outputKind(path);
  if (form === null) {
    return wrong(
      `the name “${path}” does not say what kind of file to write: end it with .${OUTPUT_KINDS.join(', .')}`,
    );
  }
  const files = [{ input, output: path }];
  return { ok: true, command: { kind: 'annotate', files, form, folder, options: given.options } };
};

/** The first two files that would be written to one. */
export const findClash = (
  files: AnnotateCommand['files'],
): { readonly first: string; readonly second: string; readonly output: string } | null => {
  const inputs = new Map<string, string>();
  for (const { input, output } of files) {
    const first = inputs.get(output);
    if (first !== undefined) return { first, second: input, output };
    inputs.set(output, input);
  }
  // The pages of one score are numbered: another score may have such a name.
  for (const { input, output } of files) {
    const first = inputs.get(output.replace(/-[1-9]\d*(?=\.svg$)/, ''));
    if (first !== undefined && first !== input) return { first, second: input, output };
  }
  return null;
};

const readFolder = (inputs: readonly string[], folder: string, to: string, options: GivenOptions): Parsed => {
  if (!isOutputKind(to))
    return wrong(`“${to}” is not a kind of file to write: use ${OUTPUT_KINDS.join(', ')}`);
  const files = inputs.map((input) => ({
    input,
    output: join(folder, `${basename(input, extname(input))}.${to}`),
  }));
  const clash = findClash(files);
  if (clash !== null) {
    return wrong(
      `${clash.first} and ${clash.second} would both be written to ${clash.output}: use two folders, or rename one`,
    );
  }
  return { ok: true, command: { kind: 'annotate', files, form: to, folder, options } };
};

const readDivide = (words: Words): Parsed => {
  const given = readGiven(divideOptions, words);
  if (!given.ok) return given;
  const [input, ...more] = words.positionals;
  if (input === undefined) return wrong('divide needs a file. See tringle --help.');
  if (more.length > 0)
    return wrong(`divide takes one file, but “${more.join('”, “')}” came after “${input}”`);
  const folder = words.values.get('out-dir');
  if (folder === undefined) return wrong('divide writes two parts: name their folder with --out-dir');
  const to = words.values.get('to') ?? 'pdf';
  if (!isOutputKind(to))
    return wrong(`“${to}” is not a kind of file to write: use ${OUTPUT_KINDS.join(', ')}`);
  const name = basename(input, extname(input));
  return { ok: true, command: { kind: 'divide', input, name, folder, form: to, options: given.options } };
};

/** A command that takes one file and prints. */
const readOneFile = (kind: 'plan' | 'compare' | 'fixes', schema: z.ZodObject, words: Words): Parsed => {
  const given = readGiven(schema, words);
  if (!given.ok) return given;
  const [input, ...more] = words.positionals;
  if (input === undefined) return wrong(`${kind} needs a file. See tringle --help.`);
  if (more.length > 0)
    return wrong(`${kind} takes one file, but “${more.join('”, “')}” came after “${input}”`);
  return {
    ok: true,
    command: { kind, input, json: words.switches.has('json'), options: given.options },
  };
};

const readTunes = (words: Words): Parsed => {
  const given = readGiven(compareOptions, words);
  if (!given.ok) return given;
  const { positionals: inputs, switches, values } = words;
  if (inputs.length === 0) return wrong('tunes needs a file. See tringle --help.');
  const wanted = values.get('sort') ?? 'file';
  const sort = TUNE_SORTS.find((each) => each === wanted);
  if (sort === undefined) return wrong(`“${wanted}” is not an order of tunes: use ${TUNE_SORTS.join(', ')}`);
  if (switches.has('json') && switches.has('csv')) return wrong('use either --json or --csv, not both');
  const only =
    values
      .get('only')
      ?.split(',')
      .map((number) => number.trim()) ?? null;
  const form = switches.has('json') ? 'json' : switches.has('csv') ? 'csv' : 'table';
  const set = switches.has('set');
  if (set && form === 'csv') return wrong('a set is printed as text or, with --json, as JSON');
  const output = values.get('output') ?? null;
  if (output !== null && form !== 'table')
    return wrong('-o writes sheets to print: leave out --csv and --json');
  if (output !== null && !/\.(?:pdf|svg)$/iu.test(output))
    return wrong('-o takes a name that ends in .pdf or .svg');
  const most = values.get('most-changes');
  if (most !== undefined && !/^\d{1,4}$/u.test(most)) return wrong(`“${most}” is not a number of changes`);
  const filter = {
    only,
    playable: switches.has('playable'),
    asTuned: switches.has('as-tuned'),
    mostChanges: most === undefined ? null : Number(most),
  };
  return {
    ok: true,
    command: { kind: 'tunes', inputs, form, output, sort, ...filter, set, options: given.options },
  };
};

const readPack = (words: Words): Parsed => {
  const given = readGiven(packChoice, words);
  if (!given.ok) return given;
  const { positionals: inputs, values } = words;
  if (inputs.length === 0) return wrong('pack needs files to read. See tringle --help.');
  const output = values.get('output') ?? 'class set.pdf';
  if (outputKind(output) !== 'pdf') return wrong('pack writes a PDF: end the name with .pdf');
  return { ok: true, command: { kind: 'pack', inputs, output, options: given.options } };
};

const readProof = (words: Words): Parsed => {
  const given = readGiven(proofChoice, words);
  if (!given.ok) return given;
  const inputs = words.positionals;
  if (inputs.length === 0) return wrong('proof needs a file. See tringle --help.');
  const output = words.values.get('output') ?? null;
  const repairs = words.values.get('repair') === 'true';
  const isReport = output !== null && /\.(?:pdf|svg)$/iu.test(output);
  if (repairs !== (output !== null && !isReport))
    return wrong(
      '--repair and -o belong together: proof FILE --repair -o FILE; without --repair, -o takes a report that ends in .pdf or .svg',
    );
  if (output !== null && inputs.length > 1) return wrong('-o takes one file at a time');
  return {
    ok: true,
    command: { kind: 'proof', inputs, output, json: words.switches.has('json'), options: given.options },
  };
};

const readMark = (words: Words): Parsed => {
  const given = readGiven(markChoice, words);
  if (!given.ok) return given;
  const [input, ...more] = words.positionals;
  if (input === undefined) return wrong('mark needs a file. See tringle --help.');
  if (more.length > 0) return wrong(`mark takes one file, but “${more.join('”, “')}” came after “${input}”`);
  const output = words.values.get('output') ?? null;
  const form = output === null ? null : outputKind(output);
  if (output !== null && form !== 'pdf' && form !== 'svg')
    return wrong('mark draws the marked pages as .pdf or .svg: end the name after -o so');
  const json = words.switches.has('json');
  return { ok: true, command: { kind: 'mark', input, output, json, options: given.options } };
};

const readGlissandi = ({ values, positionals, switches }: Words): Parsed => {
  if (positionals.length === 0)
    return wrong('glissandi needs a chord, a scale or a list of notes, such as "C whole tone"');
  const from = values.get('from');
  const named = readNamed(glissandoOptions, [
    ['sound', positionals.join(' ')],
    ...(from === undefined ? [] : [['from', from] as const]),
  ]);
  if (!named.ok) return wrong(anyProblemMessage(named.problem));
  const options = { named: named.value, file: null };
  return { ok: true, command: { kind: 'glissandi', json: switches.has('json'), options } };
};

const readWatch = (words: Words): Parsed => {
  const given = readGiven(planOptions, words);
  if (!given.ok) return given;
  const [input, ...more] = words.positionals;
  if (input === undefined) return wrong('watch needs a file. See tringle --help.');
  if (more.length > 0) return wrong(`watch takes one file, but “${more.join('”, “')}” came after “${input}”`);
  return { ok: true, command: { kind: 'watch', input, options: given.options } };
};

/** With a bar the words name a score; without one they are the setting itself. */
const readSetting = (words: Words): Parsed => {
  const { positionals, values, switches } = words;
  const json = switches.has('json');
  const example = 'such as tringle setting "D C# Bb | E F# G Ab", or a score with --bar';
  if (positionals.length === 0) return wrong(`setting needs seven note names, ${example}`);
  if (values.has('bar')) {
    const given = readGiven(settingAtBarOptions, words);
    if (!given.ok) return given;
    const [input = '', ...more] = positionals;
    if (more.length > 0)
      return wrong(`with --bar, setting takes one file, but “${more.join('”, “')}” came after “${input}”`);
    return { ok: true, command: { kind: 'setting', input, json, options: given.options } };
  }
  const alone = Object.keys(flagsFor(settingOptions));
  const further = [...values.keys()].find((name) => !alone.includes(name));
  if (further !== undefined) return wrong(`--${further} belongs to a score: name its bar with --bar`);
  const named = readNamed(settingOptions, [
    ['setting', positionals.join(' ')],
    ...optionsAmong(settingOptions, words),
  ]);
  if (!named.ok) return wrong(anyProblemMessage(named.problem));
  return {
    ok: true,
    command: { kind: 'setting', input: null, json, options: { named: named.value, file: null } },
  };
};

const readHandout = (words: Words): Parsed => {
  const given = readGiven(handoutLook, words);
  if (!given.ok) return given;
  const [word, ...more] = words.positionals;
  const names = HANDOUT_NAMES.join(', ');
  if (word === undefined) return wrong(`handout needs a name: ${names}`);
  if (more.length > 0)
    return wrong(`handout takes one name, but “${more.join('”, “')}” came after “${word}”`);
  const name = HANDOUT_NAMES.find((each) => each === word);
  if (name === undefined) {
    const nearest = findNearest(word, HANDOUT_NAMES);
    return wrong(
      `there is no handout “${word}”. ${nearest === null ? `They are ${names}.` : `Did you mean “${nearest}”?`}`,
    );
  }
  const output = words.values.get('output') ?? `${name}.pdf`;
  const form = outputKind(output);
  if (form !== 'pdf' && form !== 'svg')
    return wrong(`the name “${output}” does not say what kind of file to write: end it with .pdf or .svg`);
  return { ok: true, command: { kind: 'handout', name, output, form, options: given.options } };
};

/**
 * The address to listen at: options first, then the environment's `PORT` and `HOST`, then port 8017 of this machine alone.
 */
const readAddress = (values: ReadonlyMap<string, string>, environment: Environment): Parsed => {
  const port = values.get('port') ?? environment.PORT ?? `${DEFAULT_ADDRESS.port}`;
  if (!/^\d{1,5}$/.test(port) || Number(port) > 65_535) {
    return wrong(`“${port}” is not a port: use a number from 0 to 65535`);
  }
  const host = values.get('host') ?? environment.HOST ?? DEFAULT_ADDRESS.host;
  return { ok: true, command: { kind: 'serve', address: { host, port: Number(port) } } };
};

const readServe = ({ values, positionals }: Words, environment: Environment): Parsed =>
  positionals.length > 0
    ? wrong(`serve takes no file, but was given “${positionals[0]}”`)
    : readAddress(values, environment);

const readCommand = (name: CommandName, words: Words, environment: Environment): Parsed => {
  switch (name) {
    case 'annotate':
      return readAnnotate(words);
    case 'plan':
      return readOneFile('plan', planOptions, words);
    case 'proof':
      return readProof(words);
    case 'mark':
      return readMark(words);
    case 'compare':
      return readOneFile('compare', compareOptions, words);
    case 'divide':
      return readDivide(words);
    case 'fixes':
      return readOneFile('fixes', fixesOptions, words);
    case 'tunes':
      return readTunes(words);
    case 'glissandi':
      return readGlissandi(words);
    case 'watch':
      return readWatch(words);
    case 'setting':
      return readSetting(words);
    case 'handout':
      return readHandout(words);
    case 'pack':
      return readPack(words);
    case 'serve':
      return readServe(words, environment);
  }
};

/**
 * Reads a command line.
 *
 * @param words what follows the program's name
 * @param environment where `PORT` and `HOST` are looked up
 */
export const readArguments = (words: readonly string[], environment: Environment): Parsed => {
  const [first, ...rest] = words;
  if (first === undefined) return wrong('nothing to do. See tringle --help.');
  const name = isCommand(first) ? first : null;
  if (name === null && !first.startsWith('-')) {
    return wrong(`there is no command “${first}”. ${hint(findNearest(first, COMMANDS))}`);
  }
  const sorted = sortWords(name === null ? words : rest, name === null ? EVERYWHERE : FLAGS[name]);
  if ('usage' in sorted) return wrong(sorted.usage);
  if (sorted.switches.has('help')) return { ok: true, command: { kind: 'help' } };
  if (sorted.switches.has('version')) return { ok: true, command: { kind: 'version' } };
  return name === null
    ? wrong('name a command. See tringle --help.')
    : readCommand(name, sorted, environment);
};
