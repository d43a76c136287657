import { markOptions } from '../../api/requests/options.ts';
import { markAttempt } from '../../threads/tasks/mark-attempt.ts';
import { IGNORE_PROGRESS, startStageClock } from '../../threads/tasks/stage-clock.ts';
import { readRequest } from '../arguments/choice.ts';
import type { MarkCommand } from '../arguments/commands.ts';
import { type CommandResult, EXIT, resultOfProblem } from '../exit.ts';
import { listPages, outputKind } from '../output-files.ts';
import { oneLine } from '../summary.ts';
import { writeOutput } from '../write-output.ts';

/** Marks a pupil's attempt: prints what is not right, and writes the marked pages where they are asked for. */
export const markFile = async (
  { input, output, json, options }: MarkCommand,
  print: (line: string) => void,
): Promise<CommandResult> => {
  const asked = await readRequest(markOptions, { input, options });
  if (!asked.ok) return asked.ending;
  const { choice, file } = asked.value;
  const kind = output === null ? null : outputKind(output);
  const form = kind === 'pdf' || kind === 'svg' ? kind : 'report';
  const marked = await markAttempt(file, choice, startStageClock(IGNORE_PROGRESS), form);
  if (!marked.ok) return resultOfProblem(input, marked.problem);
  const { report, drawn } = marked.value;
  if (json) print(JSON.stringify(report, null, 2));
  else {
    for (const { verdict, comment } of report.changes) if (verdict !== 'right') print(oneLine(comment));
    for (const { comment } of report.unread) print(oneLine(comment));
    const { given, most } = report.points;
    print(`${oneLine(input)}: ${given} of ${most} points`);
  }
  if (drawn === null || output === null) return { code: EXIT.done };
  const pages = drawn.pdf === null ? listPages(drawn.pages, output) : [{ path: output, content: drawn.pdf }];
  return (await writeOutput(pages, output)) ?? { code: EXIT.done };
};
