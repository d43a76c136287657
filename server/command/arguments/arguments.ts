import { compareOptions } from '../../api/answers/comparison.ts';
import { findNearest } from '../../api/requests/nearest-word.ts';
import { fixesOptions, planOptions } from '../../api/requests/options.ts';
import { COMMANDS, type CommandName, FLAGS, isCommand } from './command-flags.ts';
import type { Environment, Parsed } from './commands.ts';
import { EVERYWHERE, hint, sortWords, type Words } from './flags.ts';
import { readAnnotate, readDivide, readPack } from './read-annotate.ts';
import { wrong } from './read-given.ts';
import { readGlissandi, readHandout, readServe, readSetting } from './read-look-up.ts';
import { readMark, readOneFile, readProof, readTunes, readWatch } from './read-report.ts';

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
