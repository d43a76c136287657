import { readFile } from 'node:fs/promises';
import { type Problem, problemMessage } from '../../engine/problem.ts';
import { createAnnotator } from '../../render/annotate.ts';
import type { AnnotateCommand } from './arguments.ts';
import { type Ending, EXIT } from './exit.ts';
import { FORM_OF_OUTPUT, findOverwrite, listOutputFiles, writeFiles } from './output-files.ts';
import { summarize } from './summary.ts';
import { endWithSystemError } from './system-error.ts';

const refusal = (input: string, problem: Problem): Ending => ({
  code: EXIT.refused,
  message: `${input}: ${problemMessage(problem)}`,
});

const overwriteRefusal = (path: string): Ending => ({
  code: EXIT.usage,
  message: `${path} is the input itself, which is never overwritten. Name another file with -o.`,
});

/**
 * Annotates one file and writes the result.
 *
 * @param print takes one line for the user
 */
export const annotateFile = async (
  command: AnnotateCommand,
  print: (line: string) => void,
): Promise<Ending> => {
  const { input, output, form } = command;
  let bytes: Uint8Array;
  try {
    bytes = await readFile(input);
  } catch (error) {
    return endWithSystemError(`cannot read ${input}`, error);
  }
  // Known before the work is done; the pages of a drawing are looked at again when their names are known.
  if ((await findOverwrite([output], input)) !== null) return overwriteRefusal(output);

  const annotator = await createAnnotator();
  const options = command.part === null ? {} : { part: command.part };
  const annotated = await annotator.annotate(bytes, options, FORM_OF_OUTPUT[form]);
  if (!annotated.ok) return refusal(input, annotated.problem);

  const files = listOutputFiles(annotated.value, form, output);
  const paths = files.map((file) => file.path);
  const overwritten = await findOverwrite(paths, input);
  if (overwritten !== null) return overwriteRefusal(overwritten);
  try {
    await writeFiles(files);
  } catch (error) {
    return endWithSystemError(`cannot write ${output}`, error);
  }
  for (const line of summarize(annotated.value, paths)) print(line);
  return { code: EXIT.done };
};
