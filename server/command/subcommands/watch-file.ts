import { basename } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { nameCount } from '../../../engine/index.ts';
import type { LeverPlanReport } from '../../api/answers/lever-report.ts';
import type { PlanReport } from '../../api/answers/report.ts';
import { type PlanChoice, planOptions } from '../../api/requests/options.ts';
import { describeChanges } from '../../reports/plan-changes.ts';
import { anyProblemMessage } from '../../service-problem.ts';
import type { ScoreFile } from '../../threads/job.ts';
import { type Read, readChoice, readScoreFile } from '../arguments/choice.ts';
import type { WatchCommand } from '../arguments/commands.ts';
import { describePlan, sumUpPlan } from '../describe-plan.ts';
import { type CommandResult, EXIT } from '../exit.ts';
import { oneLine } from '../summary.ts';
import { type FileNews, followFile } from '../watch/follow-file.ts';
import type { LivePage } from '../watch/live-page.ts';
import { createSavePlanner, givenDecisions, type PlannedSave } from '../watch/plan-saves.ts';

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
const planSaved = async (
  input: string,
  saved: ScoreFile,
  plan: (file: ScoreFile) => Promise<PlannedSave>,
): Promise<PlannedSave> => {
  const planned = await plan(saved);
  if (planned.planned.ok) return planned;
  await pause(SECOND_LOOK_MS);
  const again = await readScoreFile(input);
  return again.ok ? plan(again.value) : planned;
};

/** Prints what becomes of a file: its plan at first, and then what each save changed. */
const createTeller = (
  input: string,
  choice: PlanChoice,
  print: (line: string) => void,
  page: LivePage | null,
) => {
  const plan = createSavePlanner(choice);
  let last: PlanReport | LeverPlanReport | null = null;
  const say = (line: string): void => print(`${timeNow()}  ${oneLine(line)}`);
  const kept = (): string => (last === null ? '' : '; the last plan stands');
  const tellPlan = (plan: PlanReport | LeverPlanReport, { followed, bars }: PlannedSave): void => {
    if (last === null) for (const line of describePlan(plan)) print(line);
    else {
      const changes = [...followed, ...describeChanges(last, plan, bars)];
      say(changes.length === 0 ? 'saved: the plan is the same' : `saved: ${countMoves(plan)}`);
      for (const line of [...changes, sumUpPlan(plan)]) print(`  ${oneLine(line)}`);
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
    const save = await planSaved(input, news.file, plan);
    const { file, planned } = save;
    // What cannot be planned here the page tells itself; or it asks which part is meant.
    page?.score.save(file);
    if (planned.ok) tellPlan(planned.value, save);
    else say(`${input}: ${anyProblemMessage(planned.problem)}${kept()}`);
  };
};

/** The page that shows the file; null where none is wanted. @param first what the file holds at first */
const openPage = async (
  { input, serve }: WatchCommand,
  choice: PlanChoice,
  first: ScoreFile,
  print: (line: string) => void,
): Promise<Read<LivePage | null>> => {
  if (serve === null) return { ok: true, value: null };
  print('Starting the service for the page …');
  const { openLivePage } = await import('../watch/live-page.ts');
  const { part, tune, movement, instrument } = choice;
  const decided = await givenDecisions(first, choice);
  const page = await openLivePage(serve, input, basename(input), {
    part,
    tune,
    movement,
    instrument,
    decided,
  });
  if (page.ok) print(`The page that follows it: ${page.value.url}`);
  return page;
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
  const page = await openPage(command, choice.value, first.value, print);
  if (!page.ok) return page.ending;
  print(`Reading and planning ${input} …`);
  await followFile(input, LOOK_EVERY_MS, signal, createTeller(input, choice.value, print, page.value));
  await page.value?.close();
  return { code: EXIT.done };
};
