import { findNearest } from '../../api/requests/nearest-word.ts';
import { COMMAND_OPTIONS, COMMANDS, type CommandName, flagsOf, isCommand } from './command-flags.ts';
import type { Environment, Parsed } from './commands.ts';
import { EVERYWHERE, hint, sortWords, type Words } from './flags.ts';
import { readAnnotate, readDivide, readPack } from './read-annotate.ts';
import { wrong } from './read-given.ts';
import { readGlissandi, readHandout, readServe, readSetting } from './read-look-up.ts';
import { readMark, readOneFile, readProof, readTunes, readWatch } from './read-report.ts';

/** How the words after each command are read. */
const READERS: Readonly<Record<CommandName, (words: Words, environment: Environment) => Parsed>> = {
  annotate: readAnnotate,
  plan: (words) => readOneFile('plan', COMMAND_OPTIONS.plan, words),
  proof: readProof,
  mark: readMark,
  compare: (words) => readOneFile('compare', COMMAND_OPTIONS.compare, words),
  divide: readDivide,
  fixes: (words) => readOneFile('fixes', COMMAND_OPTIONS.fixes, words),
  tunes: readTunes,
  glissandi: readGlissandi,
  watch: readWatch,
  setting: readSetting,
  handout: readHandout,
  pack: readPack,
  serve: readServe,
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
  const sorted = sortWords(name === null ? words : rest, name === null ? EVERYWHERE : flagsOf(name));
  if ('usage' in sorted) return wrong(sorted.usage);
  if (sorted.switches.has('help')) return { ok: true, command: { kind: 'help', about: name } };
  if (sorted.switches.has('version')) return { ok: true, command: { kind: 'version' } };
  return name === null ? wrong('name a command. See tringle --help.') : READERS[name](sorted, environment);
};
