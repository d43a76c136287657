import * as z from 'zod';
import { HARP_NAMES, HARPS } from '../../../engine/index.ts';
import { PURPOSE } from '../../api/purpose.ts';
import {
  annotateOptions,
  engravingShape,
  markOptions,
  planOptions,
  proofOptions,
} from '../../api/requests/options.ts';
import { describeSettings } from '../../settings.ts';
import { COMMAND_OPTIONS, COMMANDS, type CommandName, flagsOf } from './command-flags.ts';
import { COMMAND_HELP } from './command-help.ts';
import { describeInGroups, describeOptions } from './option-help.ts';

/** The flags that take a file of options, as far as a command has them. */
const FROM_FILES: Readonly<Record<'options' | 'decisions', string>> = {
  options:
    '  --options FILE          any of these options as JSON, by their names in the service; the command line takes precedence',
  decisions:
    '  --decisions FILE        your decisions as JSON: pins, notes respelled or left out, full settings added or removed',
};

const lines = (...parts: readonly (string | readonly string[])[]): string => parts.flat().join('\n');

const listHarps = (): readonly string[] => [
  'Harps, for --instrument:',
  ...HARP_NAMES.map((name) => `  ${name.padEnd(22)}  ${HARPS[name].name}`),
  '',
];

const EXIT_CODES = `Exit codes: 0 done, 1 the input was refused, 2 the command line is wrong or does not suit the input, 3 a file or port
cannot be used, 4 proof found markings that need fixing, 70 a bug in tringle.
`;

const listVariables = (): readonly string[] => [
  'Environment variables of the service:',
  ...describeSettings().map((line) => `  ${line}`),
  '',
];

const listAllOptions = (): readonly string[] => [
  'Options of annotate and plan:',
  FROM_FILES.options,
  FROM_FILES.decisions,
  '',
  ...describeInGroups(planOptions),
  'Options of annotate alone, for how the pages look:',
  '',
  ...describeInGroups(z.strictObject(engravingShape)),
  'Option of annotate alone, with --out-dir:',
  ...describeOptions(annotateOptions.pick({ allHarps: true })),
  '',
  'Option of proof alone, with -o FILE for the corrected file:',
  ...describeOptions(proofOptions.pick({ repair: true })),
  '',
  'Option of mark alone:',
  ...describeOptions(markOptions.pick({ points: true })),
  '',
  'Option of compare alone:',
  ...describeOptions(COMMAND_OPTIONS.compare.pick({ maxSemitones: true })),
  '',
];

/** What `tringle --help` says. */
export const writeHelp = (): string =>
  lines(
    `tringle: ${PURPOSE}`,
    '',
    COMMANDS.flatMap((name) => [COMMAND_HELP[name](), '']),
    '  tringle COMMAND --help',
    '      tells of one command, with every option that it takes',
    '',
    listAllOptions(),
    listHarps(),
    '  --help, -h    this text',
    '  --version     the version',
    '',
    'annotate prints one line for each place that is not playable and each warning, one for each remark on how the file was',
    'read, and a summary. Errors go to standard error, one line each.',
    '',
    EXIT_CODES,
    listVariables(),
  );

/** What `tringle COMMAND --help` says. */
export const writeCommandHelp = (name: CommandName): string => {
  const options = COMMAND_OPTIONS[name];
  const own = flagsOf(name);
  const files = Object.entries(FROM_FILES).flatMap(([flag, told]) => (flag in own ? [told] : []));
  return lines(
    COMMAND_HELP[name](),
    '',
    ...(files.length === 0 ? [] : [files, '']),
    ...(options === null ? [] : [describeInGroups(options)]),
    ...(options !== null && 'instrument' in options.shape ? [listHarps()] : []),
    ...(name === 'serve' ? [listVariables()] : []),
    EXIT_CODES,
  );
};
