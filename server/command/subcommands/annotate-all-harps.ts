import type { prepareAnnotator } from '../../../render/index.ts';
import type { AnnotateChoice } from '../../api/requests/options.ts';
import { annotateHarps } from '../../threads/tasks/annotate/annotate-harps.ts';
import type { Target } from '../../threads/tasks/annotate/annotated.ts';
import { IGNORE_PROGRESS, startStageClock } from '../../threads/tasks/stage-clock.ts';
import type { FilePair } from '../arguments/commands.ts';
import { findOverwrite, isSource, type OutputKind, withoutExtension } from '../output-files.ts';
import { readPair } from '../packed-scores.ts';
import { listSeveral } from '../several-files.ts';
import { writeOutput } from '../write-output.ts';
import { type Done, failing, formRefusal, overwriteRefusal, refusal } from './done.ts';

/** Reports need no pages. */
const targetFor = (form: OutputKind): Target => {
  if (isSource(form)) return { kind: 'source', kinds: [form] };
  if (form === 'json') return { kind: 'plan' };
  return { kind: form === 'pdf' ? 'pdf' : 'svg' };
};

/**
 * Annotates every harp of one file, and writes what is made of it beside each other: `NAME-Harp I.pdf`, `NAME-all
 * harps.pdf`.
 */
export const annotateAllHarps = async (
  file: FilePair,
  form: OutputKind,
  options: AnnotateChoice,
  annotator: ReturnType<typeof prepareAnnotator>,
): Promise<Done> => {
  const { input, output, tune } = file;
  const read = await readPair(file);
  if (!read.ok) return failing(read.ending);
  const choice = tune === undefined ? options : { ...options, tune: tune.number };
  const clock = startStageClock(IGNORE_PROGRESS);
  const annotated = await annotateHarps(read.value, choice, targetFor(form), annotator, clock);
  if (!annotated.ok) {
    const { problem } = annotated;
    return problem.code === 'not-acceptable'
      ? formRefusal({ input, output }, problem.offered)
      : refusal(input, problem);
  }
  const files = listSeveral(annotated.value, form, withoutExtension(output));
  const paths = files.map(({ path }) => path);
  const overwritten = await findOverwrite(paths, input);
  if (overwritten !== null) return overwriteRefusal(overwritten);
  const ending = await writeOutput(files, output);
  if (ending !== null) return failing(ending);
  return { ok: true, annotations: annotated.value.harps.map(({ annotation }) => annotation), paths };
};
