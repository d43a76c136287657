import { cutTunes, pickTunes, type TuneSummary } from '../../engine/index.ts';
import { type AnyProblem, fail, type Outcome } from '../service-problem.ts';
import type { AnnotateJob, ComputeJob, Perform, Reply } from '../threads/job.ts';
import { nameTuneFiles } from '../tune-files.ts';
import { bindSet } from './bind-set.ts';
import {
  type BlobStore,
  failedFile,
  inputKey,
  type JobFile,
  type JobRequest,
  newJobFile,
  replyFormatOf,
  resultKey,
} from './job.ts';
import { type JobScore, mayBeTuneBook, openArchive } from './open-archive.ts';

/** Who does the work of jobs. */
export interface JobWorkers {
  readonly annotate: Perform<AnnotateJob>;
  readonly compute: Perform<ComputeJob>;
  readonly store: BlobStore;
  /** Of one job, the tunes of a book counted each. */
  readonly mostScores: number;
  /** How long a job may be worked on; scores that it has not come to by then fail. */
  readonly limitMs: number;
  /** Told of a bug. @returns the name that it is recorded under */
  readonly recordBug: (bug: unknown) => string;
}

/** A job that had to be given up while it was worked on: it is not done, and may be begun anew. */
export class JobAborted extends Error {}

/** One thing to do: a score as it was sent, or a tune of a book that was taken apart. */
interface Task {
  readonly score: JobScore;
  readonly tune: BookTune | null;
}

/** A tune of a book, which is cut out of it when its turn comes: the book is held once. */
interface BookTune extends TuneSummary {
  readonly cutOut: () => Uint8Array;
}

/** What a task comes to: its result, or the tunes of the book that it turns out to be. */
type Step =
  | { readonly kind: 'done'; readonly reply: Reply }
  | { readonly kind: 'book'; readonly bytes: Uint8Array; readonly tunes: readonly TuneSummary[] };

/**
 * Does a job: its scores one after the other, and of a tune book every tune unless one is named. What befalls one score
 * is told as its problem, and the others go on.
 *
 * @param onProgress is told how far each score is, whenever that changes
 * @returns how each score ended, and what was passed over
 * @throws JobAborted where the signal fires
 */
export const runJob = async (
  id: string,
  order: JobRequest,
  workers: JobWorkers,
  onProgress: (files: readonly JobFile[]) => void,
  signal: AbortSignal,
): Promise<readonly JobFile[]> => {
  const name = order.fileName === '' ? 'score' : order.fileName;
  const bytes = await workers.store.get(inputKey(id));
  if (bytes === null) return [failedFile(name, { code: 'job-not-found' })];
  const opened = openArchive(bytes, order.fileName, workers.mostScores);
  if (!opened.ok) return [failedFile(name, opened.problem)];
  const { scores, passedOver } = opened.value;
  const tasks: Task[] = scores.map((score) => ({ score, tune: null }));
  const files = [
    ...scores.map((score) => newJobFile(score.name === '' ? name : score.name, 'waiting')),
    ...passedOver.map((path) => newJobFile(path, 'skipped')),
  ];
  const choice = order.tunes === undefined ? null : startTuneChoice(order.tunes);
  const deadline = AbortSignal.timeout(workers.limitMs);
  const stop = AbortSignal.any([signal, deadline]);
  const tooLate: AnyProblem = { code: 'job-timed-out', limitSeconds: workers.limitMs / 1000 };
  // Tunes take the place of their book, behind all that has a result already.
  for (let index = 0; index < tasks.length; index += 1) {
    if (signal.aborted) throw new JobAborted();
    const show = (changes: Partial<JobFile>): void => {
      files[index] = { ...files[index]!, ...changes };
      onProgress([...files]);
    };
    if (!deadline.aborted) show({ state: 'working' });
    const tried = deadline.aborted ? fail(tooLate) : await runTask(tasks[index]!, order, workers, show, stop);
    const given = !tried.ok && tried.problem.code === 'cancelled';
    if (signal.aborted || (given && !deadline.aborted)) throw new JobAborted();
    const step = given ? fail(tooLate) : tried;
    if (step.ok && step.value.kind === 'book') {
      const problem = takeApart(tasks, files, index, step.value, choice, workers.mostScores);
      if (problem === null) index -= 1;
      else show({ state: 'failed', problem });
      continue;
    }
    const done = step.ok && step.value.kind === 'done' ? step.value.reply : null;
    const kept = done === null ? step : await workers.store.put(resultKey(id, index), done.body);
    if (!kept.ok) show({ state: 'failed', stage: null, problem: kept.problem });
    else if (done !== null) show({ state: 'done', stage: null, headers: done.headers });
  }
  files.push(...(choice?.listUnknown() ?? []));
  if (order.output !== 'class-set') return files;
  const bound = await bindSet(id, order, files, workers, stop);
  if (signal.aborted) throw new JobAborted();
  return bound;
};

/** Which tunes of the books are wanted, and what of that no book has. */
interface TuneChoice {
  readonly from: (tunes: readonly TuneSummary[]) => readonly TuneSummary[];
  /** What no tune of them is called. */
  readonly listUnknown: () => readonly JobFile[];
}

const startTuneChoice = (wanted: readonly string[]): TuneChoice => {
  const unknown = new Set(wanted);
  const listed: TuneSummary[] = [];
  return {
    from: (tunes) => {
      const choice = pickTunes(tunes, wanted);
      for (const name of wanted) if (!choice.unknown.includes(name)) unknown.delete(name);
      listed.push(...tunes);
      return choice.chosen;
    },
    listUnknown: () =>
      [...unknown].map((name) => failedFile(name, { code: 'unknown-tune', wanted: name, tunes: listed })),
  };
};

/**
 * Puts the tunes of a book in its place.
 *
 * @param choice null for all of them
 * @returns why the book is not taken apart; null where it was
 */
const takeApart = (
  tasks: Task[],
  files: JobFile[],
  index: number,
  { bytes, tunes }: Extract<Step, { kind: 'book' }>,
  choice: TuneChoice | null,
  mostScores: number,
): AnyProblem | null => {
  const wanted = choice === null ? tunes : choice.from(tunes);
  const found = tasks.length - 1 + wanted.length;
  if (found > mostScores) return { code: 'too-many-scores', limit: mostScores, found };
  const { name } = tasks[index]!.score;
  const paths = nameTuneFiles(files[index]!.name, tunes);
  const cut = cutTunes(bytes);
  const apart = wanted.map((tune): Task => {
    const cutOut = () => cut(tunes.indexOf(tune), tune.number);
    return { score: { kind: 'file', name, bytes }, tune: { ...tune, cutOut } };
  });
  tasks.splice(index, 1, ...apart);
  const named = wanted.map((tune) => ({ ...newJobFile(paths[tunes.indexOf(tune)]!, 'waiting'), tune }));
  files.splice(index, 1, ...named);
  return null;
};

const unpack = async (
  score: JobScore,
  compute: JobWorkers['compute'],
  signal: AbortSignal,
): Promise<Outcome<Uint8Array>> => {
  if (score.kind === 'file') return { ok: true, value: score.bytes };
  const unpacked = await compute({ kind: 'unpack', bytes: score.bytes, entry: score.entry }, signal);
  return unpacked.ok ? { ok: true, value: unpacked.value.body } : unpacked;
};

/** The tunes of a book; none for a file with one piece. */
const tunesIn = async (
  bytes: Uint8Array,
  compute: JobWorkers['compute'],
  signal: AbortSignal,
): Promise<Outcome<readonly TuneSummary[]>> => {
  if (!mayBeTuneBook(bytes)) return { ok: true, value: [] };
  const listed = await compute({ kind: 'list-tunes', bytes }, signal);
  if (!listed.ok) return listed;
  const tunes = JSON.parse(new TextDecoder().decode(listed.value.body)) as readonly TuneSummary[];
  return { ok: true, value: tunes.length < 2 ? [] : tunes };
};

const runTask = async (
  { score, tune }: Task,
  { choice, output }: JobRequest,
  { annotate, compute, recordBug }: JobWorkers,
  show: (changes: Partial<JobFile>) => void,
  signal: AbortSignal,
): Promise<Outcome<Step>> => {
  try {
    const unpacked = await unpack(score, compute, signal);
    if (!unpacked.ok) return unpacked;
    const bytes = unpacked.value;
    if (tune === null && choice.tune === undefined) {
      const listed = await tunesIn(bytes, compute, signal);
      if (!listed.ok) return listed;
      if (listed.value.length > 0) return { ok: true, value: { kind: 'book', bytes, tunes: listed.value } };
    }
    const own = tune === null ? choice : { ...choice, tune: tune.number };
    const job = {
      bytes: tune?.cutOut() ?? bytes,
      fileName: score.name,
      choice: own,
      format: replyFormatOf(output),
    };
    const done = await annotate(job, signal, ({ stage, bars }) => show({ stage, bars }));
    return done.ok ? { ok: true, value: { kind: 'done', reply: done.value } } : done;
  } catch (bug) {
    const problem: AnyProblem = { code: 'internal', incident: recordBug(bug) };
    return { ok: false, problem };
  }
};
