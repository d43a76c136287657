import { once } from 'node:events';
import type { Request, RequestHandler, Response } from 'express';
import { unzipSync, Zip, ZipPassThrough } from 'fflate';
import { type JobReport, jobOptions } from '../api/answers/service-answers.ts';
import { checkClassSet, checkSetTitle, readTuneList } from '../api/requests/class-set.ts';
import { cutText } from '../cut.ts';
import { etagOf } from '../http/etag.ts';
import { eventOf } from '../http/event-stream.ts';
import { dispositionOf, fileNameFrom } from '../http/file-name.ts';
import { disconnectSignal } from '../http/protect.ts';
import { ARCHIVE_TYPE, isClassSet, replyJson } from '../http/reply.ts';
import { type Answer, answer, handle, problemAnswer, setEtag } from '../http/send.ts';
import { JOB_TYPES } from '../http/upload.ts';
import { type JobFile, type JobQueue, type JobStatus, TYPES_OF_OUTPUT } from '../jobs/job.ts';
import { hasSingleScore, holdsSeveral, nameResults, PROBLEMS_NAME } from '../jobs/result-names.ts';
import { describeProblem } from '../problems.ts';
import type { ServiceProblem } from '../service-problem.ts';
import { readUploadWithOptions, type ScoreDependencies } from './scores.ts';

export interface JobDependencies extends ScoreDependencies {
  readonly jobs: JobQueue;
}

/** How often a watched job is looked at. */
const WATCH_MS = 200;

const timeText = (milliseconds: number): string => new Date(milliseconds).toISOString();

/** The tune that a file of a job is, as text that is safe to show. */
const tuneOf = ({ tune }: JobFile): JobReport['files'][number]['tune'] =>
  tune === null ? null : { number: cutText(tune.number), title: cutText(tune.title) };

const reportJob = ({ id, state, createdAt, expiresAt, files }: JobStatus): JobReport => {
  const self = `/v1/jobs/${id}`;
  const results = nameResults(files);
  return {
    id,
    state,
    createdAt: timeText(createdAt),
    expiresAt: expiresAt === null ? null : timeText(expiresAt),
    files: files.map((file, index) => ({
      name: cutText(file.name),
      tune: tuneOf(file),
      state: file.state,
      stage: file.stage,
      bars: file.bars,
      problem: file.problem === null ? null : (describeProblem(file.problem).body as never),
      result: results[index]!,
    })),
    links: { self, events: `${self}/events`, result: `${self}/result` },
  };
};

/** What becomes of the scores of a job is told by an option, since `Accept` is for one answer alone. */
const notAcceptable = (offered: readonly string[]): ServiceProblem => ({
  code: 'not-acceptable',
  offered,
  option: 'output',
});

const idOf = (request: Request): string => String(request.params.id);

export const submitHandler = (parts: JobDependencies): RequestHandler =>
  handle(async (request, response) => {
    response.vary('Accept');
    const sent = await readUploadWithOptions(parts, jobOptions, JOB_TYPES, request, response);
    if (!sent.ok) return problemAnswer(sent.problem);
    const { output = 'pdf', only, setTitle, ...choice } = sent.value.choice;
    const fits = output === 'class-set' ? checkClassSet(choice) : ({ ok: true } as const);
    if (!fits.ok) return problemAnswer(fits.problem);
    const titled = checkSetTitle(setTitle, output);
    if (!titled.ok) return problemAnswer(titled.problem);
    // The answer is the job's state; who names the type of its results is understood too.
    const offered = [...new Set(['application/json', ...TYPES_OF_OUTPUT[output], ARCHIVE_TYPE])];
    if (request.accepts(offered) === false) return problemAnswer(notAcceptable(offered));
    const { bytes, fileName } = sent.value.upload;
    const order = {
      fileName: fileNameFrom(fileName, ''),
      choice,
      output,
      ...(only === undefined ? {} : { tunes: readTuneList(only) }),
      ...(setTitle === undefined ? {} : { setTitle }),
    };
    const submitted = await parts.jobs.submit(order, bytes);
    if (!submitted.ok) return problemAnswer(submitted.problem);
    const status = await parts.jobs.find(submitted.value);
    if (status === null) return problemAnswer({ code: 'job-not-found' });
    return answer(replyJson(reportJob(status), { Location: `/v1/jobs/${status.id}` }), 202);
  });

export const statusHandler = ({ jobs }: JobDependencies): RequestHandler =>
  handle(async (request) => {
    const status = await jobs.find(idOf(request));
    return status === null ? problemAnswer({ code: 'job-not-found' }) : answer(replyJson(reportJob(status)));
  });

export const cancelHandler =
  ({ jobs }: JobDependencies): RequestHandler =>
  async (request, response, next) => {
    if (await jobs.cancel(idOf(request))) response.status(204).end();
    else next({ code: 'job-not-found' });
  };

const isOver = ({ state }: JobStatus): boolean => state === 'done' || state === 'failed';

const pause = (milliseconds: number): Promise<void> =>
  new Promise((resolve) => setTimeout(resolve, milliseconds));

const eventText = (name: string, data: unknown): string => eventOf(name, JSON.stringify(data));

/**
 * Tells how far a job is whenever that changes: events `progress`, and a last one, `end`, or `gone` where the job was
 * cancelled.
 */
export const eventsHandler =
  ({ jobs }: JobDependencies): RequestHandler =>
  async (request, response, next) => {
    const first = await jobs.find(idOf(request));
    if (first === null) return next({ code: 'job-not-found' });
    const gone = disconnectSignal(response);
    response.set({
      'Content-Type': 'text/event-stream; charset=utf-8',
      'Cache-Control': 'no-store, no-transform',
    });
    response.flushHeaders();
    let shown = '';
    for (let status: JobStatus | null = first; !gone.aborted; status = await jobs.find(first.id)) {
      if (status === null) {
        response.end(eventText('gone', {}));
        return;
      }
      const text = eventText(isOver(status) ? 'end' : 'progress', reportJob(status));
      if (isOver(status)) {
        response.end(text);
        return;
      }
      if (text !== shown) response.write(text);
      shown = text;
      await pause(WATCH_MS);
    }
  };

const listProblems = (files: readonly JobFile[]): Uint8Array => {
  const failed = files.filter((file) => file.problem !== null);
  const list = failed.map((file) => ({
    file: cutText(file.name),
    ...(file.tune === null ? {} : { tune: tuneOf(file) }),
    ...describeProblem(file.problem!).body,
  }));
  return new TextEncoder().encode(`${JSON.stringify(list, null, 2)}\n`);
};

/** Sends all results as one archive, one result at a time in memory. */
const sendArchive = async (
  status: JobStatus,
  jobs: JobQueue,
  response: Response,
  gone: AbortSignal,
): Promise<void> => {
  response.set({ 'Content-Type': ARCHIVE_TYPE, 'Content-Disposition': dispositionOf('parts.zip') });
  const zip = new Zip((error, chunk) => {
    if (error !== null) response.destroy(error);
    else response.write(chunk);
  });
  const put = async (name: string, bytes: Uint8Array): Promise<void> => {
    const entry = new ZipPassThrough(name);
    entry.mtime = status.createdAt;
    zip.add(entry);
    entry.push(bytes, true);
    if (response.writableNeedDrain) await once(response, 'drain', { signal: gone }).catch(() => {});
  };
  for (const [index, name] of nameResults(status.files).entries()) {
    if (gone.aborted) return;
    const bytes = name === null ? null : await jobs.readResult(status.id, index);
    if (name === null || bytes === null) continue;
    if (!holdsSeveral(status.files[index]!.headers)) await put(name, bytes);
    else for (const [own, content] of Object.entries(unzipSync(bytes))) await put(name + own, content);
  }
  if (status.files.some((file) => file.problem !== null)) {
    await put(PROBLEMS_NAME, listProblems(status.files));
  }
  zip.end();
  response.end();
};

const sendSingle = async (status: JobStatus, file: JobFile, jobs: JobQueue): Promise<Answer> => {
  if (file.problem !== null) return problemAnswer(file.problem);
  const body = file.headers === null ? null : await jobs.readResult(status.id, status.files.indexOf(file));
  return body === null ? problemAnswer({ code: 'job-not-found' }) : answer({ headers: file.headers!, body });
};

/** The result of a job of one score is that score's; of several, an archive with what failed listed in it. */
export const resultHandler =
  (parts: JobDependencies): RequestHandler =>
  async (request, response, next) => {
    const { jobs } = parts;
    const status = await jobs.find(idOf(request));
    if (status === null) return next({ code: 'job-not-found' });
    if (status.state !== 'done') return next({ code: 'job-without-result', state: status.state });
    const single =
      status.files.find(({ headers }) => isClassSet(headers)) ??
      (hasSingleScore(status.files) ? status.files[0]! : null);
    response.vary('Accept');
    const type = single === null ? ARCHIVE_TYPE : single.headers?.['Content-Type'];
    if (type !== undefined && request.accepts([type]) === false) return next(notAcceptable([type]));
    if (setEtag(request, response, etagOf({ job: status.id }, null))) {
      response.status(304).end();
      return;
    }
    if (single !== null) return handle(() => sendSingle(status, single, jobs))(request, response, next);
    await sendArchive(status, jobs, response, disconnectSignal(response));
  };
