import type { z } from 'zod';
import type { HarpFinding } from '../../../engine/index.ts';
import { nameCount } from '../../../engine/index.ts';
import { EngraverError, prepareAnnotator } from '../../../render/index.ts';
import { nameMovement } from '../../threads/tasks/annotate/annotate-movements.ts';
import { annotateScore } from '../../threads/tasks/annotate/annotate-score.ts';
import { IGNORE_PROGRESS, startStageClock } from '../../threads/tasks/stage-clock.ts';
import { nameTune } from '../../tune-files.ts';
import { readChoice } from '../arguments/choice.ts';
import { annotateChoice } from '../arguments/command-flags.ts';
import type { AnnotateCommand, FilePair } from '../arguments/commands.ts';
import { findClash } from '../arguments/read-annotate.ts';
import { compileLayoutLater } from '../compile-later.ts';
import { type CommandResult, EXIT } from '../exit.ts';
import { findOverwrite, listOutputFiles, makeFolder, type OutputKind, targetOf } from '../output-files.ts';
import { listPackedScores, readPair } from '../packed-scores.ts';
import { countFindings, oneLine, summarize, tabulate, tellUnplayable } from '../summary.ts';
import { resultOfSystemError } from '../system-error.ts';
import { listTuneFiles } from '../tune-files.ts';
import { writeOutput } from '../write-output.ts';
import { annotateAllHarps } from './annotate-all-harps.ts';
import { type Done, failing, formRefusal, overwriteRefusal, refusal } from './done.ts';

type Choice = z.infer<typeof annotateChoice>;

/** Annotates one file and writes the result. */
const annotateOne = async (
  file: FilePair,
  form: OutputKind,
  options: Choice,
  annotator: ReturnType<typeof prepareAnnotator>,
): Promise<Done> => {
  const { input, output, tune } = file;
  const target = targetOf(form);
  // The layout engine starts while the score is read; how that ends is told when it is asked to draw.
  if (target.kind === 'pdf' || target.kind === 'svg') annotator.start().catch(() => {});
  const read = await readPair(file);
  if (!read.ok) return failing(read.ending);
  // Known before the work is done; the pages of a drawing are looked at again when their names are known.
  if ((await findOverwrite([output], input)) !== null) return overwriteRefusal(output);
  const clock = startStageClock(IGNORE_PROGRESS);
  const choice = tune === undefined ? options : { ...options, tune: tune.number };
  const annotated = await annotateScore(read.value, choice, target, annotator, clock);
  if (!annotated.ok) {
    const { problem } = annotated;
    return problem.code === 'not-acceptable'
      ? formRefusal({ input, output }, problem.offered)
      : refusal(input, problem);
  }
  const files = listOutputFiles(annotated.value, form, output);
  const paths = files.map((file) => file.path);
  const overwritten = await findOverwrite(paths, input);
  if (overwritten !== null) return overwriteRefusal(overwritten);
  const ending = await writeOutput(files, output);
  if (ending !== null) return failing(ending);
  const { annotation, others } = annotated.value;
  return { ok: true, annotations: [annotation, ...others], paths };
};

/** Annotates many files; what befalls one does not stop the others. */
const annotateMany = async (
  { files: given, form, folder }: AnnotateCommand,
  choice: Choice,
  print: (line: string) => void,
): Promise<CommandResult> => {
  const unpacked = await listPackedScores(given);
  for (const path of unpacked.passedOver) print(oneLine(`passed over, since it is no score: ${path}`));
  const files = choice.tune === undefined ? await listTuneFiles(unpacked.files) : unpacked.files;
  const clash = findClash(files);
  if (clash !== null) {
    const { first, second, output } = clash;
    return {
      code: EXIT.usage,
      message: `${first} and ${second} would both be written to ${output}: use two folders`,
    };
  }
  try {
    await makeFolder(folder!);
  } catch (error) {
    return resultOfSystemError(`cannot make the folder ${folder}`, error);
  }
  const rows = await annotateEach(files, form, choice, print);
  for (const line of tabulate(['file', 'bars', 'changes', 'findings', 'pages', 'time'], rows)) print(line);
  const failed = rows.filter((row) => row[1] === FAILED).length;
  return failed === 0
    ? { code: EXIT.done }
    : {
        code: EXIT.refused,
        message: `${failed} of ${nameCount(files.length, 'file')} ${failed === 1 ? 'was' : 'were'} not annotated`,
      };
};

/** Annotates file after file, and tells of each. @returns a row of the table for each */
const annotateEach = async (
  files: readonly FilePair[],
  form: OutputKind,
  choice: Choice,
  print: (line: string) => void,
): Promise<readonly (readonly string[])[]> => {
  const annotateFile = choice.allHarps === true ? annotateAllHarps : annotateOne;
  let annotator = prepareAnnotator();
  const rows: (readonly string[])[] = [];
  for (const [index, file] of files.entries()) {
    const start = performance.now();
    const done = await annotateFile(file, form, choice, annotator).catch((bug: unknown) => {
      annotator = prepareAnnotator();
      if (bug instanceof EngraverError) return refusal(file.input, { code: 'layout-failed' });
      const told = bug instanceof Error ? bug.message : String(bug);
      return failing({ code: EXIT.internal, message: `a bug in tringle, not in your file: ${told}` });
    });
    const seconds = `${((performance.now() - start) / 1000).toFixed(1)} s`;
    const result = !done.ok
      ? done.ending.message
      : choice.allHarps === true
        ? done.paths.join(', ')
        : done.paths.at(-1)!;
    print(oneLine(`${index + 1}/${files.length} ${nameOf(file)}: ${result}`));
    if (done.ok && choice.allHarps === true)
      for (const line of done.annotations.flatMap(tellUnplayable)) print(line);
    rows.push(describeRow(nameOf(file), done, seconds));
  }
  return rows;
};

const nameOf = ({ input, tune }: FilePair): string =>
  tune === undefined ? input : `${input} ${nameTune(tune)}`;

const FAILED = 'failed';

const describeRow = (input: string, done: Done, seconds: string): readonly string[] => {
  if (!done.ok) return [input, FAILED, '', '', '', seconds];
  const { annotations } = done;
  const moves = annotations.reduce((sum, { plan }) => sum + plan.plan.moves.length, 0);
  const findings = annotations.flatMap(({ plan }): readonly HarpFinding[] => plan.plan.findings);
  const pages = annotations.reduce((sum, each) => sum + each.pages.length, 0);
  const counts = [`${annotations[0]!.bars}`, `${moves}`, countFindings(findings)];
  return [input, ...counts, pages === 0 ? '' : `${pages}`, seconds];
};

/**
 * Annotates the files of a command line.
 *
 * @param print takes one line for the user
 */
export const annotateFiles = async (
  command: AnnotateCommand,
  print: (line: string) => void,
): Promise<CommandResult> => {
  const choice = await readChoice(annotateChoice, command.options);
  if (!choice.ok) return choice.ending;
  compileLayoutLater();
  if (command.folder !== null) return annotateMany(command, choice.value, print);
  const [file] = command.files;
  const done = await annotateOne(file!, command.form, choice.value, prepareAnnotator()).catch(
    (error: unknown) => {
      if (error instanceof EngraverError) return refusal(file!.input, { code: 'layout-failed' });
      throw error;
    },
  );
  if (!done.ok) return done.ending;
  for (const [index, annotation] of done.annotations.entries()) {
    if (done.annotations.length > 1) print(oneLine(`${nameMovement(annotation, index)}:`));
    for (const line of summarize(annotation, done.paths)) print(line);
  }
  return { code: EXIT.done };
};
