import { basename, extname, join } from 'node:path';
import { divideOptions } from '../../api/answers/division.ts';
import { OUTPUT_KINDS, outputKind, pathBeside } from '../output-files.ts';
import type { GivenOptions } from './choice.ts';
import { annotateChoice, packChoice } from './command-flags.ts';
import type { AnnotateCommand, Parsed } from './commands.ts';
import type { Words } from './flags.ts';
import { isOutputKind, readGiven, wrong } from './read-given.ts';

export const readAnnotate = (words: Words): Parsed => {
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

export const readDivide = (words: Words): Parsed => {
  const given = readGiven(divideOptions, words);
  if (!given.ok) return given;
  const [input, ...more] = words.positionals;
  if (input === undefined) return wrong('divide needs a file. See tringle --help.');
  if (more.length > 0)
    return wrong(`divide takes one file, but “${more.join('”, “')}” came after “${input}”`);
  const folder = words.values.get('out-dir') ?? null;
  if (folder === null && words.values.has('to'))
    return wrong('--to says what is written to a folder: name it with --out-dir');
  const to = words.values.get('to') ?? 'pdf';
  if (!isOutputKind(to))
    return wrong(`“${to}” is not a kind of file to write: use ${OUTPUT_KINDS.join(', ')}`);
  const name = basename(input, extname(input));
  const output = folder === null ? null : { folder, form: to };
  return { ok: true, command: { kind: 'divide', input, name, output, options: given.options } };
};

export const readPack = (words: Words): Parsed => {
  const given = readGiven(packChoice, words);
  if (!given.ok) return given;
  const { positionals: inputs, values } = words;
  if (inputs.length === 0) return wrong('pack needs files to read. See tringle --help.');
  const output = values.get('output') ?? 'class set.pdf';
  if (outputKind(output) !== 'pdf') return wrong('pack writes a PDF: end the name with .pdf');
  return { ok: true, command: { kind: 'pack', inputs, output, options: given.options } };
};
