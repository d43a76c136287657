import { setImmediate } from 'node:timers/promises';
import { VERSION } from '../version.ts';
import { readArguments } from './arguments/arguments.ts';
import { writeHelp } from './arguments/help.ts';
import { type CommandResult, EXIT, type ExitCode } from './exit.ts';
import { watchOutput } from './output-reader.ts';
import { oneLine } from './summary.ts';
import { resultOfSystemError } from './system-error.ts';

const print = (line: string): void => {
  process.stdout.write(`${line}\n`);
};

const carryOut = async (words: readonly string[]): Promise<CommandResult> => {
  const parsed = readArguments(words, process.env);
  if (!parsed.ok) return { code: EXIT.usage, message: parsed.usage };
  switch (parsed.command.kind) {
    case 'help':
      process.stdout.write(writeHelp());
      return { code: EXIT.done };
    case 'version':
      print(VERSION);
      return { code: EXIT.done };
    // Loaded when wanted: the renderer is large, and help or the service's main thread do without it.
    case 'annotate': {
      const { annotateFiles } = await import('./subcommands/annotate-file.ts');
      return annotateFiles(parsed.command, print);
    }
    case 'plan': {
      const { planFile } = await import('./subcommands/plan-and-proofread-files.ts');
      return planFile(parsed.command, print);
    }
    case 'proof': {
      const { proofFiles } = await import('./subcommands/plan-and-proofread-files.ts');
      return proofFiles(parsed.command, print);
    }
    case 'mark': {
      const { markFile } = await import('./subcommands/mark-file.ts');
      return markFile(parsed.command, print);
    }
    case 'compare': {
      const { compareFile } = await import('./subcommands/compare-file.ts');
      return compareFile(parsed.command, print);
    }
    case 'divide': {
      const { divideFile } = await import('./subcommands/divide-file.ts');
      return divideFile(parsed.command, print);
    }
    case 'fixes': {
      const { fixesOfFile } = await import('./subcommands/fixes-file.ts');
      return fixesOfFile(parsed.command, print);
    }
    case 'tunes': {
      const { rateTunes } = await import('./subcommands/rate-tunes.ts');
      return rateTunes(parsed.command, print);
    }
    case 'glissandi': {
      const { findGlissando } = await import('./subcommands/plan-and-proofread-files.ts');
      return findGlissando(parsed.command, print);
    }
    case 'watch': {
      const { watchFile } = await import('./subcommands/watch-file.ts');
      return watchFile(parsed.command, print);
    }
    case 'setting': {
      const { describeSettingOf } = await import('./subcommands/describe-setting.ts');
      return describeSettingOf(parsed.command, print);
    }
    case 'handout': {
      const { writeHandout } = await import('./subcommands/write-handout.ts');
      return writeHandout(parsed.command, print);
    }
    case 'pack': {
      const { packFiles } = await import('./subcommands/pack-files.ts');
      return packFiles(parsed.command, print);
    }
    case 'serve': {
      const { runService } = await import('./subcommands/run-service.ts');
      return runService(parsed.command.address, print);
    }
  }
};

/**
 * Runs one command line to its end.
 *
 * @param words what follows the program's name
 * @returns the exit code; what went wrong is one line on the error output
 */
export const runCommand = async (words: readonly string[]): Promise<ExitCode> => {
  const output = watchOutput(process.stdout);
  watchOutput(process.stderr);
  try {
    const carriedOut = await carryOut(words);
    // The stream tells of a failed write a turn later.
    await setImmediate();
    const failure = output.failure();
    const ending: CommandResult =
      failure === null || carriedOut.code !== EXIT.done
        ? carriedOut
        : resultOfSystemError('the output cannot be written', failure);
    if (ending.code !== EXIT.done) process.stderr.write(`tringle: ${oneLine(ending.message)}\n`);
    return ending.code;
  } catch (bug) {
    const told = bug instanceof Error ? bug.message : String(bug);
    process.stderr.write(`tringle: a bug in tringle, not in your file: ${oneLine(told)}\n`);
    return EXIT.internal;
  }
};
