import type { z } from 'zod';
import { compareOptions } from '../../api/answers/comparison.ts';
import { divideOptions } from '../../api/answers/division.ts';
import { settingAtBarOptions } from '../../api/answers/settings.ts';
import { setTitleShape, tunesShape } from '../../api/requests/class-set.ts';
import { handoutLook } from '../../api/requests/handouts.ts';
import {
  annotateOptions,
  fixesOptions,
  markOptions,
  planOptions,
  proofOptions,
} from '../../api/requests/options.ts';
import { EVERYWHERE, type Flags, flagsFor } from './flags.ts';

/** On the command line pages are files, and all are written; all edits of a repair are made. */
export const annotateChoice = annotateOptions.omit({ page: true, pageOfBar: true, pages: true });

export const proofChoice = proofOptions.omit({ page: true, edits: true });

export const markChoice = markOptions.omit({ page: true, pages: true });

/** Pieces are chosen as files, and of tune books by `only`. */
export const packChoice = annotateChoice
  .omit({ allHarps: true, tune: true })
  .extend({ ...tunesShape, ...setTitleShape });

/** Which options of the catalogue each command takes; null where it takes none. */
export const COMMAND_OPTIONS = {
  annotate: annotateChoice,
  plan: planOptions,
  proof: proofChoice,
  mark: markChoice,
  compare: compareOptions,
  divide: divideOptions,
  fixes: fixesOptions,
  tunes: compareOptions,
  glissandi: null,
  watch: planOptions,
  setting: settingAtBarOptions,
  handout: handoutLook,
  pack: packChoice,
  serve: null,
} as const satisfies Readonly<Record<string, z.ZodObject | null>>;

export type CommandName = keyof typeof COMMAND_OPTIONS;

export const COMMANDS = Object.keys(COMMAND_OPTIONS) as CommandName[];

export const isCommand = (word: string): word is CommandName => Object.hasOwn(COMMAND_OPTIONS, word);

const VALUE = { kind: 'value' } as const;
const SWITCH = { kind: 'switch' } as const;
const OUTPUT = { kind: 'value', short: 'o' } as const;

/** The flags of each command that are no options of the catalogue. */
const OWN_FLAGS: Readonly<Record<CommandName, Flags>> = {
  annotate: { output: OUTPUT, 'out-dir': VALUE, to: VALUE, options: VALUE, decisions: VALUE },
  plan: { json: SWITCH, options: VALUE, decisions: VALUE },
  proof: { json: SWITCH, options: VALUE, output: OUTPUT },
  mark: { json: SWITCH, options: VALUE, output: OUTPUT },
  compare: { json: SWITCH, options: VALUE },
  divide: { 'out-dir': VALUE, to: VALUE, options: VALUE, decisions: VALUE },
  fixes: { json: SWITCH, options: VALUE, decisions: VALUE },
  tunes: {
    json: SWITCH,
    csv: SWITCH,
    set: SWITCH,
    sort: VALUE,
    only: VALUE,
    playable: SWITCH,
    'as-tuned': SWITCH,
    'most-changes': VALUE,
    music: VALUE,
    output: OUTPUT,
    options: VALUE,
  },
  glissandi: { json: SWITCH, from: VALUE },
  watch: { serve: SWITCH, port: VALUE, options: VALUE, decisions: VALUE },
  setting: { json: SWITCH, options: VALUE, decisions: VALUE },
  handout: { output: OUTPUT },
  pack: { output: OUTPUT, options: VALUE },
  serve: { port: VALUE, host: VALUE },
};

/** All flags of a command. */
export const flagsOf = (name: CommandName): Flags => {
  const options = COMMAND_OPTIONS[name];
  return { ...EVERYWHERE, ...OWN_FLAGS[name], ...(options === null ? {} : flagsFor(options)) };
};
