import { nameCount } from '../../../engine/index.ts';
import { drawHandout } from '../../../render/index.ts';
import { handoutLook } from '../../api/requests/handouts.ts';
import { anyProblemMessage } from '../../service-problem.ts';
import { readChoice } from '../arguments/choice.ts';
import type { HandoutCommand } from '../arguments/commands.ts';
import { type CommandResult, EXIT } from '../exit.ts';
import { listPages } from '../output-files.ts';
import { writeOutput } from '../write-output.ts';

/** Writes a wall chart. */
export const writeHandout = async (
  { name, output, form, options }: HandoutCommand,
  print: (line: string) => void,
): Promise<CommandResult> => {
  const choice = await readChoice(handoutLook, options);
  if (!choice.ok) return choice.ending;
  const drawn = await drawHandout(name, choice.value);
  if (!drawn.ok) return { code: EXIT.usage, message: anyProblemMessage(drawn.problem) };
  const { pages, pdf } = drawn.value;
  const files = form === 'pdf' ? [{ path: output, content: pdf }] : listPages(pages, output);
  const ending = await writeOutput(files, output);
  if (ending !== null) return ending;
  print(`${nameCount(pages.length, 'page')}: ${files.map(({ path }) => path).join(', ')}`);
  return { code: EXIT.done };
};
