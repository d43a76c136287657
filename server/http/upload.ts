import { createHash, type Hash } from 'node:crypto';
import type { IncomingMessage } from 'node:http';
import type { Readable } from 'node:stream';
import busboy from 'busboy';
import { JSON_LIMITS } from '../api/requests/json-limits.ts';
import { type AnyProblem, fail, type Outcome } from '../service-problem.ts';
import type { UploadReservation } from './upload-budget.ts';

/** Media types of a score sent as the body itself; what it is in truth is seen from its bytes. */
export const SCORE_TYPES: readonly string[] = [
  'application/vnd.recordare.musicxml+xml',
  'application/vnd.recordare.musicxml',
  'application/mei+xml',
  'text/vnd.abc',
  'application/xml',
  'text/xml',
  'application/octet-stream',
];

/** As a body, jobs also take an archive of scores. */
export const JOB_TYPES: readonly string[] = [...SCORE_TYPES, 'application/zip'];

export const FORM_TYPE = 'multipart/form-data';

/** Room for the boundaries and part headers around the one file of a form. */
const FORM_OVERHEAD_BYTES = 64 * 1024;

/** Room for the JSON of a form. */
const OPTIONS_LIMIT_BYTES = JSON_LIMITS.bytes;

const OPTIONS_FIELD = 'options';

/** How soon a place for an upload may be free again. */
const RETRY_AFTER_SECONDS = 5;

/** A score that was sent, or an archive of scores. */
export interface Upload {
  readonly bytes: Uint8Array;
  /** SHA-256 of the bytes, made as they came in. */
  readonly digest: Buffer;
  /** The name that a form gives its file; empty for a body. */
  readonly fileName: string;
  /** The JSON of the options in a form. */
  readonly options: string | null;
}

export interface UploadLimits {
  readonly types: readonly string[];
  /** The largest file taken. */
  readonly bytes: number;
  readonly holding: UploadReservation;
}

/** Bytes as they come in. */
interface Gathering {
  readonly chunks: Buffer[];
  readonly hash: Hash;
}

/** Gathers what a stream brings, until `limits` are passed: then it lets go of all and tells the problem, once. */
const gather = (
  stream: Readable,
  { bytes, holding }: UploadLimits,
  onExcess: (problem: AnyProblem) => void,
): Gathering => {
  const gathering: Gathering = { chunks: [], hash: createHash('sha256') };
  let size = 0;
  const keep = (chunk: Buffer): void => {
    size += chunk.length;
    const fits = size <= bytes;
    if (fits && holding.take(chunk.length)) {
      gathering.chunks.push(chunk);
      gathering.hash.update(chunk);
      return;
    }
    stream.off('data', keep);
    gathering.chunks.length = 0;
    onExcess(
      fits
        ? { code: 'busy', retryAfterSeconds: RETRY_AFTER_SECONDS }
        : { code: 'payload-too-large', limitBytes: bytes },
    );
  };
  stream.on('data', keep);
  return gathering;
};

const finish = ({ chunks, hash }: Gathering, fileName: string, options: string | null): Outcome<Upload> => ({
  ok: true,
  value: { bytes: Buffer.concat(chunks), digest: hash.digest(), fileName, options },
});

/** Settles with what comes first; a connection that breaks off ends as `cancelled`. */
const untilSettled = (
  request: IncomingMessage,
  start: (settle: (upload: Outcome<Upload>) => void) => void,
): Promise<Outcome<Upload>> =>
  new Promise((resolve) => {
    const breakOff = (): void => {
      // A request that has arrived whole is closed too, perhaps before its form is taken apart.
      if (!request.complete) resolve(fail({ code: 'cancelled' }));
    };
    request.once('error', breakOff);
    request.once('close', breakOff);
    start(resolve);
  });

const readBody = (request: IncomingMessage, limits: UploadLimits): Promise<Outcome<Upload>> =>
  untilSettled(request, (settle) => {
    const gathering = gather(request, limits, (problem) => settle(fail(problem)));
    request.once('end', () => settle(finish(gathering, '', null)));
  });

/** The parser for the form; it throws where the header names no boundary. */
const openForm = (request: IncomingMessage): Outcome<busboy.Busboy> => {
  try {
    const limits = { files: 3, fields: 2, fieldSize: OPTIONS_LIMIT_BYTES, headerPairs: 50 };
    return { ok: true, value: busboy({ headers: request.headers, limits, defParamCharset: 'utf8' }) };
  } catch (error) {
    return fail({ code: 'bad-multipart', reason: error instanceof Error ? error.message : String(error) });
  }
};

/** The text of a part of a form, told at its end; null as soon as it is too long for options. */
const gatherText = (stream: Readable, tell: (text: string | null) => void): void => {
  const chunks: Buffer[] = [];
  let size = 0;
  stream.on('data', (chunk: Buffer) => {
    size += chunk.length;
    if (size <= OPTIONS_LIMIT_BYTES) chunks.push(chunk);
    else if (size - chunk.length <= OPTIONS_LIMIT_BYTES) tell(null);
  });
  stream.on('end', () => {
    if (size <= OPTIONS_LIMIT_BYTES) tell(Buffer.concat(chunks).toString('utf8'));
  });
};

/** Bytes of a form that are not of its file. */
const watchOverhead = (request: IncomingMessage, limitBytes: number, onExcess: () => void): void => {
  let size = 0;
  const count = (chunk: Buffer): void => {
    size += chunk.length;
    if (size <= limitBytes) return;
    request.off('data', count);
    onExcess();
  };
  request.on('data', count);
};

const readForm = (request: IncomingMessage, limits: UploadLimits): Promise<Outcome<Upload>> => {
  const opened = openForm(request);
  if (!opened.ok) return Promise.resolve(opened);
  const form = opened.value;
  return untilSettled(request, (settle) => {
    let file: { readonly gathering: Gathering; readonly name: string } | null = null;
    let options: string | null = null;
    const stop = (problem: AnyProblem): void => {
      request.unpipe(form);
      settle(fail(problem));
    };
    const bad = (reason: string): void => stop({ code: 'bad-multipart', reason });
    form.on('file', (field, stream, { filename }) => {
      // An error of a part is an error of the form too, and told there.
      stream.on('error', () => {});
      // Options may come from a file of their own.
      if (field === OPTIONS_FIELD) {
        gatherText(stream, (text) => {
          if (text === null) bad('its options are too long');
          else takeOptions(text);
        });
        return;
      }
      if (file !== null) bad('it contains more than one file');
      else file = { gathering: gather(stream, limits, stop), name: filename ?? '' };
    });
    const takeOptions = (value: string): void => {
      if (options !== null) bad('it contains options twice');
      else options = value;
    };
    form.on('field', (name, value, { valueTruncated }) => {
      if (name !== OPTIONS_FIELD) bad(`the field “${name}” is not a file`);
      else if (valueTruncated) bad('its options are too long');
      else takeOptions(value);
    });
    form.on('error', (error) => bad(error instanceof Error ? error.message : String(error)));
    form.on('close', () => {
      if (file === null) bad('it contains no file');
      else settle(finish(file.gathering, file.name, options));
    });
    const whole = limits.bytes + OPTIONS_LIMIT_BYTES + FORM_OVERHEAD_BYTES;
    watchOverhead(request, whole, () => stop({ code: 'payload-too-large', limitBytes: limits.bytes }));
    request.pipe(form);
  });
};

/** The media type without its parameters, in lower case; empty where there is none. */
const mediaTypeOf = (request: IncomingMessage): string =>
  (request.headers['content-type'] ?? '').split(';', 1)[0]!.trim().toLowerCase();

/**
 * Reads the score out of a request: the body itself, or the one file of a form.
 *
 * Reading stops at the limit, so that no more than that is ever held.
 *
 * @returns the upload; or `unsupported-media-type`, `unsupported-content-coding`, `payload-too-large`, `bad-multipart`,
 * `busy` where all uploads together hold too much, and `cancelled` where the client breaks off
 */
export const readUpload = async (
  request: IncomingMessage,
  limits: UploadLimits,
): Promise<Outcome<Upload>> => {
  const mediaType = mediaTypeOf(request);
  const accepted = [...limits.types, FORM_TYPE];
  if (!accepted.includes(mediaType)) return fail({ code: 'unsupported-media-type', mediaType, accepted });
  const coding = (request.headers['content-encoding'] ?? 'identity').trim().toLowerCase();
  if (coding !== 'identity') return fail({ code: 'unsupported-content-coding', coding });
  const overhead = mediaType === FORM_TYPE ? FORM_OVERHEAD_BYTES + OPTIONS_LIMIT_BYTES : 0;
  if (Number(request.headers['content-length'] ?? 0) > limits.bytes + overhead) {
    return fail({ code: 'payload-too-large', limitBytes: limits.bytes });
  }
  return mediaType === FORM_TYPE ? readForm(request, limits) : readBody(request, limits);
};
