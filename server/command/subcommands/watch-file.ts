import { setTimeout as pause } from 'node:timers/promises';
import { nameCount } from '../../../engine/index.ts';
import type { LeverPlanReport } from '../../api/answers/lever-report.ts';
import type { PlanReport } from '../../api/answers/report.ts';
import { planOptions } from '../../api/requests/options.ts';
import { anyProblemMessage } from '../../service-problem.ts';
import { computePlan } from '../../threads/tasks/compute.ts';
import { IGNORE_PROGRESS, startStageClock } from '../../threads/tasks/stage-clock.ts';
import { readChoice, readScoreFile } from '../arguments/choice.ts';
import type { WatchCommand } from '../arguments/commands.ts';
import { describePlan } from '../describe-plan.ts';
import { type CommandResult, EXIT } from '../exit.ts';
import { oneLine } from '../summary.ts';
import { describeChanges } from '../watch/describe-changes.ts';
import { followFile } from '../watch/follow-file.ts';

const LOOK_EVERY_MS = 200;

/** A program may still be writing: what cannot be read is looked at once more before it is told. */
const SECOND_LOOK_MS = 400;

const timeNow = (): string => new Date().toTimeString().slice(0, 8);

const countMoves = ({ moves }: PlanReport | LeverPlanReport): string => nameCount(moves.length, 'move');

/** Ends when the process is told to stop. */
const stopSignal = (): AbortSignal => {
  const stopping = new AbortController();
  for (const name of ['SIGINT', 'SIGTERM'] as const) process.once(name, () => stopping.abort());
  return stopping.signal;
};

/** Plans a file again whenever it is saved, and prints what changed, until it is told to stop. */
export const watchFile = async (
  { input, options }: WatchCommand,
  print: (line: string) => void,
  signal: AbortSignal = stopSignal(),
): Promise<CommandResult> => {
  const choice = await readChoice(planOptions, options);
  if (!choice.ok) return choice.ending;
  const first = await readScoreFile(input);
  if (!first.ok) return first.ending;
  let last: PlanReport | LeverPlanReport | null = null;
  await followFile(input, LOOK_EVERY_MS, signal, async (news) => {
    const say = (line: string): void => print(`${timeNow()}  ${oneLine(line)}`);
    const kept = last === null ? '' : '; the last plan stands';
    if (news.kind === 'gone') {
      say(`${news.ending.code === EXIT.done ? input : news.ending.message}${kept}`);
      return;
    }
    const plan = (file: typeof news.file) =>
      computePlan(file, choice.value, startStageClock(IGNORE_PROGRESS));
    let planned = await plan(news.file);
    if (!planned.ok) {
      await pause(SECOND_LOOK_MS);
      const again = await readScoreFile(input);
      if (again.ok) planned = await plan(again.value);
    }
    if (!planned.ok) {
      say(`${input}: ${anyProblemMessage(planned.problem)}${kept}`);
      return;
    }
    const { value } = planned;
    if (last === null) for (const line of describePlan(value)) print(line);
    else {
      const changes = describeChanges(last, value);
      say(changes.length === 0 ? 'saved: the plan is the same' : `saved: ${countMoves(value)}`);
      for (const line of changes) print(`  ${line}`);
    }
    last = value;
  });
  return { code: EXIT.done };
};
