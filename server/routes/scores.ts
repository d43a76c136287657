import type { Request, RequestHandler, Response } from 'express';
import type { z } from 'zod';
import { compareOptions } from '../api/comparison.ts';
import { glissandoOptions } from '../api/glissandi.ts';
import { annotateOptions, planOptions, proofOptions } from '../api/options.ts';
import { readOptions } from '../api/read-options.ts';
import { etagOf } from '../http/etag.ts';
import { goneSignal } from '../http/protect.ts';
import { type Answer, announce, answer, handle, queryOf, refuse } from '../http/send.ts';
import { chooseReplyType, readWish } from '../negotiate.ts';
import { decline, type Outcome } from '../service-problem.ts';
import { FORM_TYPE, readUpload, SCORE_TYPES, type Upload } from '../upload.ts';
import type { UploadBudget } from '../upload-budget.ts';
import type { AnnotateJob, Perform, Reply, ThinkJob } from '../work/job.ts';

/** What requests about one score need. */
export interface ScoreParts {
  readonly annotate: Perform<AnnotateJob>;
  readonly think: Perform<ThinkJob>;
  readonly uploads: UploadBudget;
  /** The largest file taken. */
  readonly uploadLimitBytes: number;
}

/** An upload with its options, read and checked. */
export interface AskedUpload<T> {
  readonly upload: Upload;
  readonly choice: T;
}

/**
 * Reads the options of the query, then the upload, then all options: what can be refused without the score is refused
 * before the score is read.
 */
export const readAsked = async <T extends z.ZodObject>(
  parts: Pick<ScoreParts, 'uploads' | 'uploadLimitBytes'>,
  schema: T,
  types: readonly string[],
  request: Request,
  response: Response,
): Promise<Outcome<AskedUpload<z.infer<T>>>> => {
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

const finish = (made: Outcome<Reply>): Answer => (made.ok ? answer(made.value) : refuse(made.problem));

export const annotateHandler = (parts: ScoreParts): RequestHandler =>
  handle(async (request, response) => {
    response.vary('Accept');
    const gone = goneSignal(response);
    const types = chooseReplyType((offered) => request.accepts(offered));
    if (!types.ok) return refuse(types.problem);
    const address = { path: request.path, query: queryOf(request) };
    const query = readOptions(annotateOptions, address.query, null);
    if (!query.ok) return refuse(query.problem);
    const early = readWish(types.value, query.value, address);
    if (!early.ok) return refuse(early.problem);
    const asked = await readAsked(parts, annotateOptions, SCORE_TYPES, request, response);
    if (!asked.ok) return refuse(asked.problem);
    const { upload, choice } = asked.value;
    const wish = readWish(types.value, choice, address);
    if (!wish.ok) return refuse(wish.problem);
    if (announce(request, response, etagOf({ choice, wish: wish.value }, upload.digest))) {
      return { kind: 'known' };
    }
    return finish(await parts.annotate({ bytes: upload.bytes, choice, wish: wish.value }, gone));
  });

const jsonOnly = (request: Request): Outcome<null> =>
  request.accepts(['application/json']) === false
    ? decline({ code: 'not-acceptable', offered: ['application/json'] })
    : { ok: true, value: null };

const thinkHandler = <T extends z.ZodObject>(
  parts: ScoreParts,
  schema: T,
  jobFor: (bytes: Uint8Array, choice: z.infer<T>) => ThinkJob,
): RequestHandler =>
  handle(async (request, response) => {
    response.vary('Accept');
    const gone = goneSignal(response);
    const taken = jsonOnly(request);
    if (!taken.ok) return refuse(taken.problem);
    const asked = await readAsked(parts, schema, SCORE_TYPES, request, response);
    if (!asked.ok) return refuse(asked.problem);
    const { upload, choice } = asked.value;
    const etag = etagOf({ path: request.path, choice }, upload.digest);
    if (announce(request, response, etag)) return { kind: 'known' };
    return finish(await parts.think(jobFor(upload.bytes, choice), gone));
  });

export const planHandler = (parts: ScoreParts): RequestHandler =>
  thinkHandler(parts, planOptions, (bytes, choice) => ({ kind: 'plan', bytes, choice }));

export const proofHandler = (parts: ScoreParts): RequestHandler =>
  thinkHandler(parts, proofOptions, (bytes, choice) => ({ kind: 'proof', bytes, choice }));

export const compareHandler = (parts: ScoreParts): RequestHandler =>
  thinkHandler(parts, compareOptions, (bytes, choice) => ({ kind: 'compare', bytes, choice }));

export const glissandiHandler = (parts: ScoreParts): RequestHandler =>
  handle(async (request, response) => {
    response.vary('Accept');
    const taken = jsonOnly(request);
    if (!taken.ok) return refuse(taken.problem);
    const choice = readOptions(glissandoOptions, queryOf(request), null);
    if (!choice.ok) return refuse(choice.problem);
    const etag = etagOf({ path: request.path, choice: choice.value }, null);
    if (announce(request, response, etag)) return { kind: 'known' };
    return finish(await parts.think({ kind: 'glissandi', choice: choice.value }, goneSignal(response)));
  });
