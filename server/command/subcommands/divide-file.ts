import { join } from 'node:path';
import { nameCount } from '../../../engine/index.ts';
import { type Annotation, EngraverError, prepareAnnotator } from '../../../render/index.ts';
import { divideOptions } from '../../api/answers/division.ts';
import { annotateDivided } from '../../threads/tasks/annotate/annotate-divided.ts';
import { forTwo } from '../../threads/tasks/annotate/for-two.ts';
import { IGNORE_PROGRESS, startStageClock } from '../../threads/tasks/stage-clock.ts';
import { readRequest } from '../arguments/choice.ts';
import type { DivideCommand } from '../arguments/commands.ts';
import { type CommandResult, EXIT, resultOfProblem } from '../exit.ts';
import { findOverwrite, targetOf } from '../output-files.ts';
import { listSeveral } from '../several-files.ts';
import { oneLine, summarize } from '../summary.ts';
import { writeOutput } from '../write-output.ts';

type Remark = Annotation['remarks'][number];

const isSameRemark = (a: Remark, b: Remark): boolean => a.barName === b.barName && a.message === b.message;

/** Divides a part between two players and writes a part for each, and where pages are written a score of both. */
export const divideFile = async (
  {
    input,
    name,
    folder,
    form,
    options,
  }: Omit<DivideCommand, 'output'> & NonNullable<DivideCommand['output']>,
  print: (line: string) => void,
): Promise<CommandResult> => {
  const asked = await readRequest(divideOptions, { input, options });
  if (!asked.ok) return asked.ending;
  const { choice, file } = asked.value;
  const annotator = prepareAnnotator();
  const clock = startStageClock(IGNORE_PROGRESS);
  const divided = await annotateDivided(file, forTwo(choice), targetOf(form), annotator, clock).catch(
    (error: unknown) => {
      if (error instanceof EngraverError) return { ok: false, problem: { code: 'layout-failed' } } as const;
      throw error;
    },
  );
  if (!divided.ok) return resultOfProblem(input, divided.problem);
  const files = listSeveral(divided.value, form, join(folder, name));
  const paths = files.map(({ path }) => path);
  const overwritten = await findOverwrite(paths, input);
  if (overwritten !== null)
    return {
      code: EXIT.usage,
      message: `${overwritten} is the input file, which tringle never overwrites.`,
    };
  const ending = await writeOutput(files, folder);
  if (ending !== null) return ending;
  print(oneLine(divided.value.least.sentence));
  const { harps, names } = divided.value;
  let told: Annotation['remarks'] = [];
  for (const [index, { annotation }] of harps.entries()) {
    // What concerns both parts is told once.
    const remarks = annotation.remarks.filter((remark) => !told.some((known) => isSameRemark(known, remark)));
    told = [...told, ...remarks];
    const own = paths.filter((path) => path.startsWith(join(folder, `${name}-${names[index]}`)));
    for (const line of summarize({ ...annotation, remarks }, own)) print(line);
  }
  if (divided.value.together !== null) {
    const score = paths.filter((path) =>
      path.startsWith(join(folder, `${name}-${divided.value.together!.name}`)),
    );
    print(
      oneLine(
        `${nameCount(divided.value.together.pages.length, 'page')} for both players: ${score.join(', ')}`,
      ),
    );
  }
  return { code: EXIT.done };
};
