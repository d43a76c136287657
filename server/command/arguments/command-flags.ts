import { compareOptions } from '../../api/answers/comparison.ts';
import { divideOptions } from '../../api/answers/division.ts';
import { settingAtBarOptions } from '../../api/answers/settings.ts';
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
export const annotateChoice = annotateOptions.omit({ page: true, pages: true });

export const proofChoice = proofOptions.omit({ page: true, edits: true });

export const markChoice = markOptions.omit({ page: true, pages: true });

/** Pieces are chosen as files; decisions are those of one. */
export const packChoice = annotateChoice.omit({ allHarps: true, part: true, tune: true });

const VALUE = { kind: 'value' } as const;
const SWITCH = { kind: 'switch' } as const;

export const FLAGS = {
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

export type CommandName = keyof typeof FLAGS;

export const COMMANDS = Object.keys(FLAGS) as CommandName[];

export const isCommand = (word: string): word is CommandName => Object.hasOwn(FLAGS, word);
