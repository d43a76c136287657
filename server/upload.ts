import type { IncomingMessage } from 'node:http';
import type { Readable } from 'node:stream';
import busboy from 'busboy';
import { type AnyProblem, decline, type Outcome } from './service-problem.ts';

/** Media types of a score sent as the body itself; what it is in truth is seen from its bytes. */
const BODY_TYPES = [
  'application/vnd.recordare.musicxml+xml',
  'application/vnd.recordare.musicxml',
  'application/mei+xml',
  'application/xml',
  'text/xml',
  'application/octet-stream',
];

const FORM_TYPE = 'multipart/form-data';

/** Every media type a score can be sent in. */
export const UPLOAD_TYPES: readonly string[] = [...BODY_TYPES, FORM_TYPE];

/** Room for the boundaries and part headers around the one file of a form. */
const FORM_OVERHEAD_BYTES = 64 * 1024;

type Upload = Outcome<Uint8Array>;

/** Counts what a stream brings and calls `onExcess` once, when it is more than the limit. */
const watchSize = (stream: Readable, limitBytes: number, onExcess: () => void): void => {
  let size = 0;
  const count = (chunk: Buffer): void => {
    size += chunk.length;
    if (size <= limitBytes) return;
    stream.off('data', count);
    onExcess();
  };
  stream.on('data', count);
};

/** The chunks a stream brings, gathered until the limit is passed. */
const collect = (stream: Readable, limitBytes: number, onExcess: () => void): readonly Buffer[] => {
  const chunks: Buffer[] = [];
  const keep = (chunk: Buffer): void => {
    chunks.push(chunk);
  };
  watchSize(stream, limitBytes, () => {
    stream.off('data', keep);
    chunks.length = 0;
    onExcess();
  });
  stream.on('data', keep);
  return chunks;
};

/** Settles with what comes first; a connection that breaks off ends as `cancelled`. */
const untilSettled = (
  request: IncomingMessage,
  start: (settle: (upload: Upload) => void) => void,
): Promise<Upload> =>
  new Promise((resolve) => {
    const breakOff = (): void => {
      // A request that has arrived whole is closed too, perhaps before its form is taken apart.
      if (!request.complete) resolve(decline({ code: 'cancelled' }));
    };
    request.once('error', breakOff);
    request.once('close', breakOff);
    start(resolve);
  });

const readBody = (request: IncomingMessage, limitBytes: number): Promise<Upload> =>
  untilSettled(request, (settle) => {
    const chunks = collect(request, limitBytes, () =>
      settle(decline({ code: 'payload-too-large', limitBytes })),
    );
    request.once('end', () => settle({ ok: true, value: Buffer.concat(chunks) }));
  });

/** The parser for the form; it throws where the header names no boundary. */
const openForm = (request: IncomingMessage): Outcome<busboy.Busboy> => {
  try {
    const limits = { files: 2, fields: 1, fieldSize: 1024, headerPairs: 50 };
    return { ok: true, value: busboy({ headers: request.headers, limits }) };
  } catch (error) {
    return decline({ code: 'bad-multipart', reason: error instanceof Error ? error.message : String(error) });
  }
};

const readForm = (request: IncomingMessage, limitBytes: number): Promise<Upload> => {
  const opened = openForm(request);
  if (!opened.ok) return Promise.resolve(opened);
  const form = opened.value;
  return untilSettled(request, (settle) => {
    let file: readonly Buffer[] | null = null;
    const stop = (problem: AnyProblem): void => {
      request.unpipe(form);
      settle(decline(problem));
    };
    const tooLarge = (): void => stop({ code: 'payload-too-large', limitBytes });
    form.on('file', (_field, stream) => {
      if (file === null) file = collect(stream, limitBytes, tooLarge);
      else stop({ code: 'bad-multipart', reason: 'it holds more than one file' });
      // An error of a part is an error of the form too, and told there.
      stream.on('error', () => {});
    });
    form.on('field', (name) => stop({ code: 'bad-multipart', reason: `the field “${name}” is not a file` }));
    form.on('error', (error) =>
      stop({ code: 'bad-multipart', reason: error instanceof Error ? error.message : String(error) }),
    );
    form.on('close', () => {
      if (file === null) stop({ code: 'bad-multipart', reason: 'it holds no file' });
      else settle({ ok: true, value: Buffer.concat(file) });
    });
    watchSize(request, limitBytes + FORM_OVERHEAD_BYTES, tooLarge);
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
 * @param limitBytes the largest file taken
 * @returns the bytes; or `unsupported-media-type`, `unsupported-content-coding`, `payload-too-large`,
 * `bad-multipart`, and `cancelled` where the client breaks off
 */
export const readUpload = async (request: IncomingMessage, limitBytes: number): Promise<Upload> => {
  const mediaType = mediaTypeOf(request);
  if (!UPLOAD_TYPES.includes(mediaType)) {
    return decline({ code: 'unsupported-media-type', mediaType, accepted: UPLOAD_TYPES });
  }
  const coding = (request.headers['content-encoding'] ?? 'identity').trim().toLowerCase();
  if (coding !== 'identity') return decline({ code: 'unsupported-content-coding', coding });
  const overhead = mediaType === FORM_TYPE ? FORM_OVERHEAD_BYTES : 0;
  if (Number(request.headers['content-length'] ?? 0) > limitBytes + overhead) {
    return decline({ code: 'payload-too-large', limitBytes });
  }
  return mediaType === FORM_TYPE ? readForm(request, limitBytes) : readBody(request, limitBytes);
};
