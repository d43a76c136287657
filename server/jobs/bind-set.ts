import { refusalOf } from '../refusal-of.ts';
import type { Outcome } from '../service-problem.ts';
import type { ComputeJob, Perform, Reply } from '../threads/job.ts';
import { type BlobStore, failedFile, type JobFile, type JobRequest, newJobFile, resultKey } from './job.ts';

/** Who binds a class set. */
interface SetWorkers {
  readonly compute: Perform<ComputeJob>;
  readonly store: BlobStore;
  readonly recordBug: (bug: unknown) => string;
}

/** The name of a class set among the files of its job. */
const SET_NAME = 'class set';

/**
 * Binds what the scores of a job became into one class set, which stands after them. The scores have no results of their
 * own then.
 */
export const bindSet = async (
  id: string,
  { choice, setTitle }: JobRequest,
  files: readonly JobFile[],
  { compute, store, recordBug }: SetWorkers,
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
    problem === null ? [] : [{ name, refusal: refusalOf(problem) }],
  );
  const { paper, language, naming } = choice;
  const look = {
    ...(paper === undefined ? {} : { paper }),
    ...(language === undefined ? {} : { language }),
    ...(naming === undefined ? {} : { naming }),
    ...(setTitle === undefined ? {} : { title: setTitle }),
  };
  const job = { kind: 'bind-set', pieces, refused, choice: look } as const;
  const made = await compute(job, signal).catch(
    (bug): Outcome<Reply> => ({ ok: false, problem: { code: 'internal', incident: recordBug(bug) } }),
  );
  if (!made.ok) return [...bound, failedFile(SET_NAME, made.problem)];
  const kept = await store.put(resultKey(id, files.length), made.value.body);
  if (!kept.ok) return [...bound, failedFile(SET_NAME, kept.problem)];
  return [...bound, { ...newJobFile(SET_NAME, 'waiting'), state: 'done', headers: made.value.headers }];
};
