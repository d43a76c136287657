import type { Request, RequestHandler, Response } from 'express';
import type { z } from 'zod';
import { compareOptions } from '../api/answers/comparison.ts';
import { divideOptions } from '../api/answers/division.ts';
import { glissandoOptions } from '../api/answers/glissandi.ts';
import { settingAtBarOptions, settingOptions } from '../api/answers/settings.ts';
import { tunesOptions } from '../api/answers/tune-table.ts';
import { type AnnotateChoice, annotateOptions, fixesOptions, planOptions } from '../api/requests/options.ts';
import { readOptions } from '../api/requests/read-options.ts';
import { etagOf } from '../http/etag.ts';
import { disconnectSignal } from '../http/protect.ts';
import { ARCHIVE_TYPE } from '../http/reply.ts';
import { chooseReplyType, readReplyFormat } from '../http/reply-format.ts';
import { type Answer, answer, handle, problemAnswer, queryOf, setEtag } from '../http/send.ts';
import { tellPages } from '../http/tell-pages.ts';
import { FORM_TYPE, readUpload, SCORE_TYPES, type Upload } from '../http/upload.ts';
import type { UploadBudget } from '../http/upload-budget.ts';
import { fail, type Outcome } from '../service-problem.ts';
import {
  type AnnotateJob,
  type ComputeJob,
  type Perform,
  type Reply,
  type ReplyFormat,
  type ScoreFile,
  TUNES_TYPES,
  type TunesType,
} from '../threads/job.ts';
import { forTwo, isForTwo } from '../threads/tasks/annotate/for-two.ts';

/** What requests about one score need. */
export interface ScoreDependencies {
  readonly annotate: Perform<AnnotateJob>;
  readonly compute: Perform<ComputeJob>;
  readonly uploads: UploadBudget;
  /** The largest file taken. */
  readonly uploadLimitBytes: number;
}

/** An upload with its options, read and checked. */
export interface UploadWithOptions<T> {
  readonly upload: Upload;
  readonly choice: T;
}

/**
 * Reads the options of the query, then the upload, then all options: what can be refused without the score is refused
 * before the score is read.
 */
export const readUploadWithOptions = async <T extends z.ZodObject>(
  parts: Pick<ScoreDependencies, 'uploads' | 'uploadLimitBytes'>,
  schema: T,
  types: readonly string[],
  request: Request,
  response: Response,
): Promise<Outcome<UploadWithOptions<z.infer<T>>>> => {
  const isForm = request.is(FORM_TYPE) !== false;
  const early = readOptions(isForm ? (schema.partial() as unknown as T) : schema, queryOf(request), null);
  if (!early.ok) return early;
  const holding = parts.uploads.open();
  response.once('close', holding.release);
  const upload = await readUpload(request, { types, bytes: parts.uploadLimitBytes, holding });
  if (!upload.ok) return upload;
  const choice = readOptions(schema, queryOf(request), upload.value.options);
  return choice.ok ? { ok: true, value: { upload: upload.value, choice: choice.value } } : choice;
};

const fileOf = ({ bytes, fileName }: Upload): ScoreFile => ({ bytes, fileName });

const finish = (made: Outcome<Reply>): Answer => (made.ok ? answer(made.value) : problemAnswer(made.problem));

/** Whether what is asked for is several parts. */
const isOfSeveral = (choice: AnnotateChoice): boolean => choice.allHarps === true || isForTwo(choice);

export const annotateHandler = (parts: ScoreDependencies): RequestHandler =>
  handle(async (request, response) => {
    response.vary('Accept');
    const gone = disconnectSignal(response);
    const address = { path: request.path, query: queryOf(request) };
    const formatFor = (choice: AnnotateChoice): Outcome<ReplyFormat> => {
      const types = chooseReplyType((offered) => request.accepts(offered), isOfSeveral(choice));
      return types.ok ? readReplyFormat(types.value, choice, address) : types;
    };
    const query = readOptions(annotateOptions, address.query, null);
    if (!query.ok) return problemAnswer(query.problem);
    const isForm = request.is(FORM_TYPE) !== false;
    // What is refused without the score is refused before it is read; a form may still ask for several parts.
    const early = formatFor(query.value);
    if (!early.ok) {
      const mayFit = isForm && early.problem.code === 'not-acceptable' && request.accepts(ARCHIVE_TYPE);
      if (!mayFit) return problemAnswer(early.problem);
    }
    const sent = await readUploadWithOptions(parts, annotateOptions, SCORE_TYPES, request, response);
    if (!sent.ok) return problemAnswer(sent.problem);
    const { upload, choice } = sent.value;
    const format = formatFor(choice);
    if (!format.ok) return problemAnswer(format.problem);
    const job = { ...fileOf(upload), choice, format: format.value };
    if (format.value.kind === 'pages') return tellPages(parts.annotate, job, gone, response);
    if (
      setEtag(
        request,
        response,
        etagOf({ choice, wish: format.value, fileName: upload.fileName }, upload.digest),
      )
    ) {
      return { kind: 'known' };
    }
    return finish(await parts.annotate(job, gone));
  });

const JSON_ONLY = ['application/json'];

const accepts = (request: Request, offered: readonly string[]): Outcome<null> =>
  request.accepts([...offered]) === false
    ? fail({ code: 'not-acceptable', offered: [...offered] })
    : { ok: true, value: null };

const computeHandler = <T extends z.ZodObject>(
  parts: ScoreDependencies,
  schema: T,
  jobFor: (file: ScoreFile, choice: z.infer<T>, request: Request) => ComputeJob,
  offered: readonly string[] = JSON_ONLY,
): RequestHandler =>
  handle(async (request, response) => {
    response.vary('Accept');
    const gone = disconnectSignal(response);
    const taken = accepts(request, offered);
    if (!taken.ok) return problemAnswer(taken.problem);
    const sent = await readUploadWithOptions(parts, schema, SCORE_TYPES, request, response);
    if (!sent.ok) return problemAnswer(sent.problem);
    const { upload, choice } = sent.value;
    const type = request.accepts([...offered]);
    const etag = etagOf({ path: request.path, type, choice, fileName: upload.fileName }, upload.digest);
    if (setEtag(request, response, etag)) return { kind: 'known' };
    return finish(await parts.compute(jobFor(fileOf(upload), choice, request), gone));
  });

export const planHandler = (parts: ScoreDependencies): RequestHandler =>
  computeHandler(parts, planOptions, (file, choice) => ({ kind: 'plan', ...file, choice }));

export const compareHandler = (parts: ScoreDependencies): RequestHandler =>
  computeHandler(parts, compareOptions, (file, choice) => ({ kind: 'compare', ...file, choice }));

export const tunesHandler = (parts: ScoreDependencies): RequestHandler =>
  computeHandler(
    parts,
    tunesOptions,
    (file, choice, request) => ({
      kind: 'tunes',
      ...file,
      choice,
      // Whether one of them is accepted was asked before.
      type: request.accepts([...TUNES_TYPES]) as TunesType,
    }),
    TUNES_TYPES,
  );

export const fixesHandler = (parts: ScoreDependencies): RequestHandler =>
  computeHandler(parts, fixesOptions, (file, choice) => ({ kind: 'fixes', ...file, choice }));

/** The division as data, or the parts of both players. */
export const divideHandler = (parts: ScoreDependencies): RequestHandler =>
  handle(async (request, response) => {
    response.vary('Accept');
    const gone = disconnectSignal(response);
    const offered = [...JSON_ONLY, ARCHIVE_TYPE];
    const taken = accepts(request, offered);
    if (!taken.ok) return problemAnswer(taken.problem);
    const sent = await readUploadWithOptions(parts, divideOptions, SCORE_TYPES, request, response);
    if (!sent.ok) return problemAnswer(sent.problem);
    const { upload } = sent.value;
    const choice = forTwo(sent.value.choice);
    const type = request.accepts(offered);
    const etag = etagOf({ path: request.path, type, choice, fileName: upload.fileName }, upload.digest);
    if (setEtag(request, response, etag)) return { kind: 'known' };
    const file = { ...fileOf(upload), choice };
    return finish(
      type === ARCHIVE_TYPE
        ? await parts.annotate({ ...file, format: { kind: 'pdf' } }, gone)
        : await parts.compute({ kind: 'divide', ...file }, gone),
    );
  });

export const settingAtBarHandler = (parts: ScoreDependencies): RequestHandler =>
  computeHandler(parts, settingAtBarOptions, (file, choice) => ({ kind: 'setting-at-bar', ...file, choice }));

/** What is computed without a score: all that is asked stands in the query. */
const queryHandler = <T extends z.ZodObject>(
  parts: ScoreDependencies,
  schema: T,
  jobFor: (choice: z.infer<T>) => ComputeJob,
): RequestHandler =>
  handle(async (request, response) => {
    response.vary('Accept');
    const taken = accepts(request, JSON_ONLY);
    if (!taken.ok) return problemAnswer(taken.problem);
    const choice = readOptions(schema, queryOf(request), null);
    if (!choice.ok) return problemAnswer(choice.problem);
    const etag = etagOf({ path: request.path, choice: choice.value }, null);
    if (setEtag(request, response, etag)) return { kind: 'known' };
    return finish(await parts.compute(jobFor(choice.value), disconnectSignal(response)));
  });

export const glissandiHandler = (parts: ScoreDependencies): RequestHandler =>
  queryHandler(parts, glissandoOptions, (choice) => ({ kind: 'glissandi', choice }));

export const settingHandler = (parts: ScoreDependencies): RequestHandler =>
  queryHandler(parts, settingOptions, (choice) => ({ kind: 'setting', choice }));
