import { basename } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { nameCount } from '../../../engine/index.ts';
import type { LeverPlanReport } from '../../api/answers/lever-report.ts';
import type { PlanReport } from '../../api/answers/report.ts';
import { type PlanChoice, planOptions } from '../../api/requests/options.ts';
import { describeChanges } from '../../reports/plan-changes.ts';
import { anyProblemMessage } from '../../service-problem.ts';
import type { ScoreFile } from '../../threads/job.ts';
import { computePlan } from '../../threads/tasks/compute.ts';
import { IGNORE_PROGRESS, startStageClock } from '../../threads/tasks/stage-clock.ts';
import { type Read, readChoice, readScoreFile } from '../arguments/choice.ts';
import type { WatchCommand } from '../arguments/commands.ts';
import { describePlan } from '../describe-plan.ts';
import { type CommandResult, EXIT } from '../exit.ts';
import { oneLine } from '../summary.ts';
import { type FileNews, followFile } from '../watch/follow-file.ts';
import type { LivePage } from '../watch/live-page.ts';

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

/** Plans a file, and where it cannot be read once more what it holds a little later. */
const planSaved = async (input: string, saved: ScoreFile, choice: PlanChoice) => {
  const plan = (file: ScoreFile) => computePlan(file, choice, startStageClock(IGNORE_PROGRESS));
  const planned = await plan(saved);
  if (planned.ok) return { file: saved, planned };
  await pause(SECOND_LOOK_MS);
  const again = await readScoreFile(input);
  return again.ok ? { file: again.value, planned: await plan(again.value) } : { file: saved, planned };
};

/** Prints what becomes of a file: its plan at first, and then what each save changed. */
const createTeller = (
  input: string,
  choice: PlanChoice,
  print: (line: string) => void,
  page: LivePage | null,
) => {
  let last: PlanReport | LeverPlanReport | null = null;
  const say = (line: string): void => print(`${timeNow()}  ${oneLine(line)}`);
  const kept = (): string => (last === null ? '' : '; the last plan stands');
  const tellPlan = (plan: PlanReport | LeverPlanReport): void => {
    if (last === null) for (const line of describePlan(plan)) print(line);
    else {
      const changes = describeChanges(last, plan);
      say(changes.length === 0 ? 'saved: the plan is the same' : `saved: ${countMoves(plan)}`);
      for (const line of changes) print(`  ${oneLine(line)}`);
    }
    last = plan;
  };
  return async (news: FileNews): Promise<void> => {
    if (news.kind === 'gone') {
      const sentence = news.ending.code === EXIT.done ? input : news.ending.message;
      page?.score.lose(sentence);
      say(`${sentence}${kept()}`);
      return;
    }
    const { file, planned } = await planSaved(input, news.file, choice);
    // What cannot be planned here the page tells itself; or it asks which part is meant.
    page?.score.save(file);
    if (planned.ok) tellPlan(planned.value);
    else say(`${input}: ${anyProblemMessage(planned.problem)}${kept()}`);
  };
};

/** The page that shows the file; null where none is wanted. */
const openPage = async (
  { input, serve }: WatchCommand,
  choice: PlanChoice,
): Promise<Read<LivePage | null>> => {
  if (serve === null) return { ok: true, value: null };
  const { openLivePage } = await import('../watch/live-page.ts');
  const { part, tune, movement, instrument } = choice;
  return openLivePage(serve, input, basename(input), { part, tune, movement, instrument });
};

/** Plans a file again whenever it is saved, and prints what changed, until it is told to stop. */
export const watchFile = async (
  command: WatchCommand,
  print: (line: string) => void,
  signal: AbortSignal = stopSignal(),
): Promise<CommandResult> => {
  const { input, options } = command;
  const choice = await readChoice(planOptions, options);
  if (!choice.ok) return choice.ending;
  const first = await readScoreFile(input);
  if (!first.ok) return first.ending;
  const page = await openPage(command, choice.value);
  if (!page.ok) return page.ending;
  if (page.value !== null) print(`The page that follows it: ${page.value.url}`);
  await followFile(input, LOOK_EVERY_MS, signal, createTeller(input, choice.value, print, page.value));
  await page.value?.close();
  return { code: EXIT.done };
};
