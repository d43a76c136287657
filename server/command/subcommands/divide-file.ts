import { join } from 'node:path';
import { type Annotation, EngraverError, prepareAnnotator } from '../../../render/index.ts';
import { annotateScore } from '../../threads/tasks/annotate-score.ts';
import { IGNORE_PROGRESS, startStageClock } from '../../threads/tasks/stage-clock.ts';
import { annotateChoice, type DivideCommand } from '../arguments/arguments.ts';
import { readChoice, readScoreFile } from '../arguments/choice.ts';
import { type CommandResult, EXIT, resultOfProblem } from '../exit.ts';
import { findOverwrite, listOutputFiles, targetOf } from '../output-files.ts';
import { summarize } from '../summary.ts';
import { writeOutput } from '../write-output.ts';

const PLAYERS = [
  ['1', 'first player'],
  ['2', 'second player'],
] as const;

type Remark = Annotation['remarks'][number];

const isSameRemark = (a: Remark, b: Remark): boolean =>
  a.barNumber === b.barNumber && a.message === b.message;

/** Divides a part between two players and writes a part for each. */
export const divideFile = async (
  { input, name, folder, form, options }: DivideCommand,
  print: (line: string) => void,
): Promise<CommandResult> => {
  const choice = await readChoice(annotateChoice, options);
  if (!choice.ok) return choice.ending;
  const read = await readScoreFile(input);
  if (!read.ok) return read.ending;
  const annotator = prepareAnnotator();
  let told: Annotation['remarks'] = [];
  for (const [player, words] of PLAYERS) {
    const { divide = 'balanced' } = choice.value;
    const chosen = { ...choice.value, player, divide: divide === 'no' ? ('balanced' as const) : divide };
    const clock = startStageClock(IGNORE_PROGRESS);
    const annotated = await annotateScore(read.value, chosen, targetOf(form), annotator, clock).catch(
      (error: unknown) => {
        if (error instanceof EngraverError) return { ok: false, problem: { code: 'layout-failed' } } as const;
        throw error;
      },
    );
    if (!annotated.ok) return resultOfProblem(input, annotated.problem);
    const files = listOutputFiles(annotated.value, form, join(folder, `${name}-${words}.${form}`));
    const paths = files.map(({ path }) => path);
    const overwritten = await findOverwrite(paths, input);
    if (overwritten !== null)
      return {
        code: EXIT.usage,
        message: `${overwritten} is the input file, which tringle never overwrites.`,
      };
    const ending = await writeOutput(files, folder);
    if (ending !== null) return ending;
    const { annotation } = annotated.value;
    // What concerns both parts is told once.
    const remarks = annotation.remarks.filter((remark) => !told.some((known) => isSameRemark(known, remark)));
    told = [...told, ...remarks];
    for (const line of summarize({ ...annotation, remarks }, paths)) print(line);
  }
  return { code: EXIT.done };
};
