import { cutFacts } from '../cut.ts';
import { type AnyProblem, anyProblemMessage, partToChoose } from '../service-problem.ts';
import { flagOf } from './arguments/flags.ts';

/** How the program ends. The help explains each. */
export const EXIT = {
  done: 0,
  /** The input was read, but refused. */
  refused: 1,
  usage: 2,
  /** A file, folder or port cannot be used. */
  system: 3,
  /** The markings of a file lead to wrong notes, or there are none. */
  incorrect: 4,
  /** A bug (70 is `EX_SOFTWARE` of BSD sysexits). */
  internal: 70,
} as const;

export type ExitCode = (typeof EXIT)[keyof typeof EXIT];

/** How a command ended, and if badly, the sentence for the error output. */
export type CommandResult =
  | { readonly code: typeof EXIT.done }
  | { readonly code: Exclude<ExitCode, typeof EXIT.done>; readonly message: string };

/** How a command ended that did not do what was asked. */
export type Failed = Exclude<CommandResult, { code: typeof EXIT.done }>;

/**
 * How a command ends for a file that a problem befell: by the options where they do not fit the file, else by the file.
 */
export const resultOfProblem = (input: string, problem: AnyProblem): Failed => ({
  code: concernsOptions(problem) ? EXIT.usage : EXIT.refused,
  message: [`${input}: ${anyProblemMessage(cutFacts(problem))}`, ...adviceOnCommand(problem)].join(' '),
});

/** How to choose a part, where the message names those to choose from; how to do without pages that cannot be had. */
const adviceOnCommand = (problem: AnyProblem): readonly string[] => {
  if (problem.code === 'layout-failed') return ['Its plan can be had without pages: use the command plan.'];
  const part = partToChoose(problem);
  if (part === null) return [];
  const flag = `--${flagOf(part.option)}`;
  return [`Add ${flag}, as in ${flag} ${part.id}.`];
};

const concernsOptions = ({ code }: AnyProblem): boolean =>
  code === 'bad-option' || code === 'unknown-option' || code === 'missing-option';
