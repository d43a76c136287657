import type { z } from 'zod';
import { TUNE_SORTS } from '../../../engine/index.ts';
import { SET_MUSIC } from '../../../render/pure.ts';
import { compareOptions } from '../../api/answers/comparison.ts';
import { planOptions } from '../../api/requests/options.ts';
import { outputKind } from '../output-files.ts';
import { markChoice, proofChoice } from './command-flags.ts';
import type { Environment, Parsed } from './commands.ts';
import type { Words } from './flags.ts';
import { readAddress } from './read-address.ts';
import { readGiven, wrong } from './read-given.ts';

/** A command that takes one file and prints. */
export const readOneFile = (
  kind: 'plan' | 'compare' | 'fixes',
  schema: z.ZodObject,
  words: Words,
): Parsed => {
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

export const readTunes = (words: Words): Parsed => {
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
  const asked = values.get('music') ?? 'none';
  const music = SET_MUSIC.find((each) => each === asked);
  if (music === undefined) return wrong(`“${asked}” is not music of a set: use ${SET_MUSIC.join(', ')}`);
  const output = values.get('output') ?? null;
  if (music !== 'none' && (!set || output === null)) return wrong('--music goes with --set and -o');
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
    command: { kind: 'tunes', inputs, form, output, sort, ...filter, set, music, options: given.options },
  };
};

export const readProof = (words: Words): Parsed => {
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

export const readMark = (words: Words): Parsed => {
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

/** Where the page is served that shows the file: to this machine alone, whatever `HOST` says. */
const readServed = (
  { switches, values }: Words,
  { PORT }: Environment,
): ReturnType<typeof readAddress> | { readonly ok: true; readonly value: null } => {
  if (switches.has('serve')) return readAddress(values, { PORT });
  return values.has('port') ? wrong('--port goes with --serve') : { ok: true, value: null };
};

export const readWatch = (words: Words, environment: Environment): Parsed => {
  const given = readGiven(planOptions, words);
  if (!given.ok) return given;
  const serve = readServed(words, environment);
  if (!serve.ok) return serve;
  const [input, ...more] = words.positionals;
  if (input === undefined) return wrong('watch needs a file. See tringle --help.');
  if (more.length > 0) return wrong(`watch takes one file, but “${more.join('”, “')}” came after “${input}”`);
  return { ok: true, command: { kind: 'watch', input, serve: serve.value, options: given.options } };
};
