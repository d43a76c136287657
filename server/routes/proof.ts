import type { RequestHandler } from 'express';
import { proofOptions } from '../api/requests/options.ts';
import { readOptions } from '../api/requests/read-options.ts';
import { etagOf } from '../http/etag.ts';
import { disconnectSignal } from '../http/protect.ts';
import { readProofFormat } from '../http/reply-format.ts';
import { answer, handle, problemAnswer, queryOf, setEtag } from '../http/send.ts';
import { FORM_TYPE, SCORE_TYPES } from '../http/upload.ts';
import { readUploadWithOptions, type ScoreDependencies } from './scores.ts';

/** The markings of a score, proofread: as a report, as pages, or as the file with them corrected. */
export const proofHandler = (parts: ScoreDependencies): RequestHandler =>
  handle(async (request, response) => {
    response.vary('Accept');
    const gone = disconnectSignal(response);
    const address = { path: request.path, query: queryOf(request) };
    const accepts = (offered: string[]): string | false => request.accepts(offered);
    const query = readOptions(proofOptions, address.query, null);
    if (!query.ok) return problemAnswer(query.problem);
    // What is refused without the score is refused before it is read; a form has options of its own.
    const early = readProofFormat(accepts, query.value, address);
    if (!early.ok && (request.is(FORM_TYPE) === false || early.problem.code !== 'not-acceptable'))
      return problemAnswer(early.problem);
    const sent = await readUploadWithOptions(parts, proofOptions, SCORE_TYPES, request, response);
    if (!sent.ok) return problemAnswer(sent.problem);
    const { upload, choice } = sent.value;
    const format = readProofFormat(accepts, choice, address);
    if (!format.ok) return problemAnswer(format.problem);
    const { bytes, fileName, digest } = upload;
    const etag = etagOf({ path: request.path, wish: format.value, choice, fileName }, digest);
    if (setEtag(request, response, etag)) return { kind: 'known' };
    const job = { kind: 'proof' as const, bytes, fileName, choice, format: format.value };
    const made = await parts.compute(job, gone);
    return made.ok ? answer(made.value) : problemAnswer(made.problem);
  });
