import type { Request, RequestHandler, Response } from 'express';
import type { z } from 'zod';
import { markOptions, proofOptions } from '../api/requests/options.ts';
import { readOptions } from '../api/requests/read-options.ts';
import { etagOf } from '../http/etag.ts';
import { disconnectSignal } from '../http/protect.ts';
import { readMarkFormat, readProofFormat } from '../http/reply-format.ts';
import { answer, handle, problemAnswer, queryOf, setEtag } from '../http/send.ts';
import { FORM_TYPE, SCORE_TYPES } from '../http/upload.ts';
import type { Outcome } from '../service-problem.ts';
import type { ComputeJob, ReplyAddress, ScoreFile } from '../threads/job.ts';
import { readUploadWithOptions, type ScoreDependencies } from './scores.ts';

type Accepts = (offered: string[]) => string | false;

/** What is asked about the markings of a score, and in which forms it is answered. */
interface MarkingsQuestion<Options extends z.ZodObject, Format> {
  readonly options: Options;
  readonly readFormat: (accepts: Accepts, choice: z.infer<Options>, address: ReplyAddress) => Outcome<Format>;
  readonly jobFor: (file: ScoreFile, choice: z.infer<Options>, format: Format) => ComputeJob;
}

/** The markings of a score, proofread: as a report, as pages, or as the file with them corrected. */
export const proofHandler = (parts: ScoreDependencies): RequestHandler =>
  markingsHandler(parts, {
    options: proofOptions,
    readFormat: readProofFormat,
    jobFor: (file, choice, format) => ({ kind: 'proof', ...file, choice, format }),
  });

/** The markings of a score, judged as a pupil's attempt: as a report or as pages. */
export const markHandler = (parts: ScoreDependencies): RequestHandler =>
  markingsHandler(parts, {
    options: markOptions,
    readFormat: readMarkFormat,
    jobFor: (file, choice, format) => ({ kind: 'mark', ...file, choice, format }),
  });

const markingsHandler = <Options extends z.ZodObject, Format>(
  parts: ScoreDependencies,
  question: MarkingsQuestion<Options, Format>,
): RequestHandler => handle((request, response) => answerQuestion(parts, question, request, response));

const answerQuestion = async <Options extends z.ZodObject, Format>(
  parts: ScoreDependencies,
  { options, readFormat, jobFor }: MarkingsQuestion<Options, Format>,
  request: Request,
  response: Response,
) => {
  response.vary('Accept');
  const gone = disconnectSignal(response);
  const address = { path: request.path, query: queryOf(request) };
  const accepts = (offered: string[]): string | false => request.accepts(offered);
  const query = readOptions(options, address.query, null);
  if (!query.ok) return problemAnswer(query.problem);
  // What is refused without the score is refused before it is read; a form has options of its own.
  const early = readFormat(accepts, query.value, address);
  if (!early.ok && (request.is(FORM_TYPE) === false || early.problem.code !== 'not-acceptable'))
    return problemAnswer(early.problem);
  const sent = await readUploadWithOptions(parts, options, SCORE_TYPES, request, response);
  if (!sent.ok) return problemAnswer(sent.problem);
  const { upload, choice } = sent.value;
  const format = readFormat(accepts, choice, address);
  if (!format.ok) return problemAnswer(format.problem);
  const { bytes, fileName, digest } = upload;
  const etag = etagOf({ path: request.path, wish: format.value, choice, fileName }, digest);
  if (setEtag(request, response, etag)) return { kind: 'known' as const };
  const made = await parts.compute(jobFor({ bytes, fileName }, choice, format.value), gone);
  return made.ok ? answer(made.value) : problemAnswer(made.problem);
};
