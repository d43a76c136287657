import { type AnyProblem, anyProblemMessage, fail, type Outcome } from '../service-problem.ts';
import type { AnnotateJob, ComputeJob, Perform, Reply } from '../threads/job.ts';
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
import { type JobScore, openArchive } from './open-archive.ts';

/** Who does the work of jobs. */
export interface JobWorkers {
  readonly annotate: Perform<AnnotateJob>;
  readonly compute: Perform<ComputeJob>;
  readonly store: BlobStore;
  readonly mostScores: number;
  /** How long a job may be worked on; scores that it has not come to by then fail. */
  readonly limitMs: number;
  /** Told of a bug. @returns the name that it is recorded under */
  readonly recordBug: (bug: unknown) => string;
}

/** A job that had to be given up while it was worked on: it is not done, and may be begun anew. */
export class JobAborted extends Error {}

/**
 * Does a job: its scores one after the other. What befalls one score is told as its problem, and the others go on.
 *
 * @param onProgress is told how far each score is, whenever that changes
 * @returns how each score ended, and what was passed over
 * @throws JobGivenUp where the signal fires
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
  const files = [
    ...scores.map((score) => newJobFile(score.name === '' ? name : score.name, 'waiting')),
    ...passedOver.map((path) => newJobFile(path, 'skipped')),
  ];
  const deadline = AbortSignal.timeout(workers.limitMs);
  const stop = AbortSignal.any([signal, deadline]);
  const tooLate: AnyProblem = { code: 'job-timed-out', limitSeconds: workers.limitMs / 1000 };
  for (const [index, score] of scores.entries()) {
    if (signal.aborted) throw new JobAborted();
    const show = (changes: Partial<JobFile>): void => {
      files[index] = { ...files[index]!, ...changes };
      onProgress([...files]);
    };
    if (!deadline.aborted) show({ state: 'working' });
    const tried = deadline.aborted ? fail(tooLate) : await runScore(score, order, workers, show, stop);
    const given = !tried.ok && tried.problem.code === 'cancelled';
    if (signal.aborted || (given && !deadline.aborted)) throw new JobAborted();
    const done = given ? fail(tooLate) : tried;
    const kept = done.ok ? await workers.store.put(resultKey(id, index), done.value.body) : done;
    if (done.ok && kept.ok) show({ state: 'done', stage: null, headers: done.value.headers });
    else if (!kept.ok) show({ state: 'failed', stage: null, problem: kept.problem });
  }
  return order.output === 'class-set' ? bindSet(id, order, files, workers, stop) : files;
};

/** The name of a class set among the files of its job. */
const SET_NAME = 'class set';

/**
 * Binds what the scores of a job became into one class set, which stands after them. The scores have no results of their
 * own then.
 */
const bindSet = async (
  id: string,
  { choice }: JobRequest,
  files: readonly JobFile[],
  { compute, store, recordBug }: JobWorkers,
  signal: AbortSignal,
): Promise<readonly JobFile[]> => {
  const pieces: Uint8Array[] = [];
  for (const [index, { state }] of files.entries()) {
    const bytes = state === 'done' ? await store.get(resultKey(id, index)) : null;
    if (bytes !== null) pieces.push(bytes);
  }
  const bound = files.map((file) => ({ ...file, headers: null }));
  if (pieces.length === 0) return bound;
  const refused = files.flatMap(({ name, problem }) =>
    problem === null ? [] : [{ name, reason: anyProblemMessage(problem) }],
  );
  const { paper } = choice;
  const job = { kind: 'bind-set', pieces, refused, choice: paper === undefined ? {} : { paper } } as const;
  const made = await compute(job, signal).catch(
    (bug): Outcome<Reply> => ({ ok: false, problem: { code: 'internal', incident: recordBug(bug) } }),
  );
  if (!made.ok) return [...bound, failedFile(SET_NAME, made.problem)];
  const kept = await store.put(resultKey(id, files.length), made.value.body);
  if (!kept.ok) return [...bound, failedFile(SET_NAME, kept.problem)];
  return [...bound, { ...newJobFile(SET_NAME, 'waiting'), state: 'done', headers: made.value.headers }];
};

const runScore = async (
  score: JobScore,
  { choice, output }: JobRequest,
  { annotate, compute, recordBug }: JobWorkers,
  show: (changes: Partial<JobFile>) => void,
  signal: AbortSignal,
): Promise<Outcome<Reply>> => {
  try {
    const { bytes } = score;
    const unpacked =
      score.kind === 'file'
        ? { ok: true as const, value: { body: bytes } }
        : await compute({ kind: 'unpack', bytes, entry: score.entry }, signal);
    if (!unpacked.ok) return unpacked;
    const job = { bytes: unpacked.value.body, fileName: score.name, choice, format: replyFormatOf(output) };
    return await annotate(job, signal, ({ stage, bars }) => show({ stage, bars }));
  } catch (bug) {
    const problem: AnyProblem = { code: 'internal', incident: recordBug(bug) };
    return { ok: false, problem };
  }
};
