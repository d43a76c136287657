import type { Writable } from 'node:stream';
import { setImmediate } from 'node:timers/promises';
import { VERSION } from '../version.ts';
import { readArguments } from './arguments/arguments.ts';
import type { Command } from './arguments/commands.ts';
import { type CommandResult, EXIT, type ExitCode } from './exit.ts';
import { watchOutput } from './output-reader.ts';
import { oneLine } from './summary.ts';
import { resultOfSystemError } from './system-error.ts';

/** Where a command writes its answer, and what went wrong. */
export interface CommandStreams {
  readonly answer: Writable;
  readonly trouble: Writable;
}

type Print = (line: string) => void;

/**
 * What carries out each command. It is loaded when wanted: the renderer is large, and help or the service's main thread do
 * without it.
 */
const RUNNERS: {
  readonly [K in Command['kind']]: (
    command: Extract<Command, { readonly kind: K }>,
    print: Print,
  ) => Promise<CommandResult>;
} = {
  help: async ({ about }, print) => {
    const { writeCommandHelp, writeHelp } = await import('./arguments/help.ts');
    print((about === null ? writeHelp() : writeCommandHelp(about)).trimEnd());
    return { code: EXIT.done };
  },
  version: async (_command, print) => {
    print(VERSION);
    return { code: EXIT.done };
  },
  annotate: async (command, print) =>
    (await import('./subcommands/annotate-file.ts')).annotateFiles(command, print),
  plan: async (command, print) => (await import('./subcommands/plan-file.ts')).planFile(command, print),
  proof: async (command, print) => (await import('./subcommands/proof-files.ts')).proofFiles(command, print),
  mark: async (command, print) => (await import('./subcommands/mark-file.ts')).markFile(command, print),
  compare: async (command, print) =>
    (await import('./subcommands/compare-file.ts')).compareFile(command, print),
  divide: async ({ output, ...command }, print) =>
    output === null
      ? (await import('./subcommands/divide-answer.ts')).tellDivision(command, print)
      : (await import('./subcommands/divide-file.ts')).divideFile({ ...command, ...output }, print),
  fixes: async (command, print) => (await import('./subcommands/fixes-file.ts')).fixesOfFile(command, print),
  tunes: async (command, print) => (await import('./subcommands/rate-tunes.ts')).rateTunes(command, print),
  glissandi: async (command, print) =>
    (await import('./subcommands/find-glissandi.ts')).findGlissandi(command, print),
  watch: async (command, print) => (await import('./subcommands/watch-file.ts')).watchFile(command, print),
  setting: async (command, print) =>
    (await import('./subcommands/describe-setting.ts')).describeSettingOf(command, print),
  handout: async (command, print) =>
    (await import('./subcommands/write-handout.ts')).writeHandout(command, print),
  pack: async (command, print) => (await import('./subcommands/pack-files.ts')).packFiles(command, print),
  serve: async (command, print) =>
    (await import('./subcommands/run-service.ts')).runService(command.address, print),
};

const run = <K extends Command['kind']>(
  command: Extract<Command, { readonly kind: K }>,
  print: Print,
): Promise<CommandResult> => RUNNERS[command.kind as K](command, print);

const carryOut = async (words: readonly string[], print: Print): Promise<CommandResult> => {
  const parsed = readArguments(words, process.env);
  return parsed.ok ? run(parsed.command, print) : { code: EXIT.usage, message: parsed.usage };
};

/**
 * Runs one command line to its end.
 *
 * @param words what follows the program's name
 * @returns the exit code; what went wrong is one line on the error output
 */
export const runCommand = async (
  words: readonly string[],
  { answer, trouble }: CommandStreams = { answer: process.stdout, trouble: process.stderr },
): Promise<ExitCode> => {
  const output = watchOutput(answer);
  watchOutput(trouble);
  try {
    const carriedOut = await carryOut(words, (line) => answer.write(`${line}\n`));
    // The stream tells of a failed write a turn later.
    await setImmediate();
    const failure = output.failure();
    const ending: CommandResult =
      failure === null || carriedOut.code !== EXIT.done
        ? carriedOut
        : resultOfSystemError('the output cannot be written', failure);
    if (ending.code !== EXIT.done) trouble.write(`tringle: ${oneLine(ending.message)}\n`);
    return ending.code;
  } catch (bug) {
    const told = bug instanceof Error ? bug.message : String(bug);
    trouble.write(`tringle: a bug in tringle, not in your file: ${oneLine(told)}\n`);
    return EXIT.internal;
  }
};
