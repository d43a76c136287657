import { planOptions } from '../../api/requests/options.ts';
import { computePlan } from '../../threads/tasks/compute.ts';
import { IGNORE_PROGRESS, startStageClock } from '../../threads/tasks/stage-clock.ts';
import { readChoice, readScoreFile } from '../arguments/choice.ts';
import type { PlanCommand } from '../arguments/commands.ts';
import { describePlan } from '../describe-plan.ts';
import { type CommandResult, EXIT, resultOfProblem } from '../exit.ts';

/** Plans one file and prints the plan. */
export const planFile = async (
  command: PlanCommand,
  print: (line: string) => void,
): Promise<CommandResult> => {
  const choice = await readChoice(planOptions, command.options);
  if (!choice.ok) return choice.ending;
  const read = await readScoreFile(command.input);
  if (!read.ok) return read.ending;
  const planned = await computePlan(read.value, choice.value, startStageClock(IGNORE_PROGRESS));
  if (!planned.ok) return resultOfProblem(command.input, planned.problem);
  if (command.json) print(JSON.stringify(planned.value, null, 2));
  else for (const line of describePlan(planned.value)) print(line);
  return { code: EXIT.done };
};
