import { strToU8, zipSync } from 'fflate';
import { namePiece } from '../../engine/index.ts';
import type { Annotation, BoundSheets, ClassSet, ProofPages } from '../../render/index.ts';
import { SOURCE_TYPES } from '../../render/pure.ts';
import type { PagesReport } from '../api/answers/told-pages.ts';
import { type HarpFile, listHarpFiles } from '../harp-files.ts';
import { reportAnnotation } from '../reports/report.ts';
import { namesIn } from '../reports/report-notes.ts';
import { fail, type Outcome } from '../service-problem.ts';
import type {
  ComputeJob,
  MarkFormat,
  ProofFormat,
  Reply,
  ReplyAddress,
  ReplyFormat,
} from '../threads/job.ts';
import type { AnnotatedHarps } from '../threads/tasks/annotate/annotate-harps.ts';
import type { AnnotatedPages } from '../threads/tasks/annotate/annotate-pages.ts';
import type { Annotated } from '../threads/tasks/annotate/annotated.ts';
import type { Proofread } from '../threads/tasks/compute.ts';
import type { MarkedAttempt } from '../threads/tasks/mark-attempt.ts';
import type { SourceFile } from '../threads/tasks/source-file.ts';
import { dispositionOf, fileNameFrom } from './file-name.ts';

const encode = (text: string): Uint8Array => new TextEncoder().encode(text);

const reply = (headers: Readonly<Record<string, string>>, body: Uint8Array): Outcome<Reply> => ({
  ok: true,
  value: { headers, body },
});

/** A JSON document as an answer. */
export const replyJson = (value: unknown, headers: Readonly<Record<string, string>> = {}): Reply => ({
  headers: { 'Content-Type': 'application/json', ...headers },
  body: encode(JSON.stringify(value)),
});

const pageAddress = ({ path, query }: ReplyAddress, page: number): string => {
  const parameters = new URLSearchParams(query);
  parameters.delete('page');
  parameters.set('page', `${page}`);
  return `${path}?${parameters}`;
};

/** The other pages of the part (RFC 8288; relations of the IANA registry). */
const linkPages = (address: ReplyAddress, page: number, pageCount: number): string =>
  [
    { rel: 'first', page: 1 },
    { rel: 'prev', page: page - 1 },
    { rel: 'next', page: page + 1 },
    { rel: 'last', page: pageCount },
  ]
    .filter((link) => link.page >= 1 && link.page <= pageCount)
    .map((link) => `<${pageAddress(address, link.page)}>; rel="${link.rel}"`)
    .join(', ');

const nameFile = (annotation: Annotation, ending: string): string =>
  nameAfter(namePiece(annotation.titles), ending);

const nameAfter = (title: string, ending: string): string =>
  dispositionOf(`${fileNameFrom(title, 'harp part')}.${ending}`);

/** The user's own score file as an answer, named after the piece. */
export const replySourceFile = (title: string, { kind, bytes }: SourceFile): Reply => ({
  headers: { 'Content-Type': SOURCE_TYPES[kind], 'Content-Disposition': nameAfter(title, kind) },
  body: bytes,
});

const replyPdf = (annotation: Annotation): Outcome<Reply> => {
  if (annotation.pdf === null) throw new Error('a PDF was asked for, and the renderer made none');
  const headers = {
    'Content-Type': 'application/pdf',
    'Content-Disposition': nameFile(annotation, 'pdf'),
    'Tringle-Page-Count': `${annotation.pages.length}`,
  };
  return reply(headers, annotation.pdf);
};

/** One of several pages, and what is told with it. */
interface WantedPage {
  readonly page: string;
  readonly headers: Readonly<Record<string, string>>;
}

const findPage = (
  pages: readonly string[],
  wanted: number,
  address: ReplyAddress,
  fileName: string,
): Outcome<WantedPage> => {
  const pageCount = pages.length;
  const page = pages[wanted - 1];
  if (page === undefined) return fail({ code: 'page-out-of-range', page: wanted, pageCount });
  const headers = {
    'Content-Disposition': fileName,
    'Tringle-Page-Count': `${pageCount}`,
    Link: linkPages(address, wanted, pageCount),
  };
  return { ok: true, value: { page, headers } };
};

const DRAWING_HEADERS = {
  'Content-Type': 'image/svg+xml',
  // The styles of a drawing stand in its own elements, and its letters in them.
  'Content-Security-Policy':
    "default-src 'none'; style-src 'unsafe-inline'; font-src data:; frame-ancestors 'none'",
} as const;

const replyDrawing = (found: Outcome<WantedPage>): Outcome<Reply> =>
  found.ok ? reply({ ...DRAWING_HEADERS, ...found.value.headers }, encode(found.value.page)) : found;

const replyPainted = async (found: Outcome<WantedPage>): Promise<Outcome<Reply>> => {
  if (!found.ok) return found;
  // Whoever only sends answers does without the renderer.
  const { paintPng } = await import('../../render/index.ts');
  return reply({ 'Content-Type': 'image/png', ...found.value.headers }, await paintPng(found.value.page));
};

/** A wall chart: one page as a drawing, or all as PDF. @returns the answer, or `page-out-of-range` */
export const replyHandout = (
  { pages, pdf }: BoundSheets,
  { name, page, address }: Extract<ComputeJob, { readonly kind: 'handout' }>,
): Outcome<Reply> => {
  if (page !== null) return replyDrawing(findPage(pages, page, address, dispositionOf(`${name}.svg`)));
  const headers = {
    'Content-Type': 'application/pdf',
    'Content-Disposition': dispositionOf(`${name}.pdf`),
    'Tringle-Page-Count': `${pages.length}`,
  };
  return reply(headers, pdf);
};

/** A proofread score in the form that was wished for. @returns the answer, or `page-out-of-range` */
export const replyProof = (
  { report, title, repaired, drawn }: Proofread,
  format: ProofFormat,
): Outcome<Reply> => {
  if (repaired !== null) return { ok: true, value: replySourceFile(title, repaired) };
  if (drawn === null) return { ok: true, value: replyJson(report) };
  return replyDrawn(drawn, `${fileNameFrom(title, 'harp part')} proof`, format);
};

/** A marked attempt in the form that was wished for. @returns the answer, or `page-out-of-range` */
export const replyMarked = ({ report, title, drawn }: MarkedAttempt, format: MarkFormat): Outcome<Reply> =>
  drawn === null || format.kind === 'report'
    ? { ok: true, value: replyJson(report) }
    : replyDrawn(drawn, `${fileNameFrom(title, 'harp part')} marked`, format);

const replyDrawn = (drawn: ProofPages, named: string, format: ProofFormat): Outcome<Reply> => {
  if (format.kind === 'svg')
    return replyDrawing(findPage(drawn.pages, format.page, format.address, dispositionOf(`${named}.svg`)));
  if (drawn.pdf === null) throw new Error('a PDF was asked for, and the renderer made none');
  const headers = {
    'Content-Type': 'application/pdf',
    'Content-Disposition': dispositionOf(`${named}.pdf`),
    'Tringle-Page-Count': `${drawn.pages.length}`,
  };
  return reply(headers, drawn.pdf);
};

const replyReport = ({ annotation, score }: Annotated): Outcome<Reply> => {
  const report = reportAnnotation(annotation, namesIn(score));
  const headers: Readonly<Record<string, string>> =
    report.pageCount === null ? {} : { 'Tringle-Page-Count': `${report.pageCount}` };
  return { ok: true, value: replyJson(report, headers) };
};

/** What is said after the pages that were told one by one. */
export const replyToldPages = ({ annotation, score }: AnnotatedPages): Reply => {
  const { letters, ...whole } = annotation;
  const report: PagesReport['report'] = { ...reportAnnotation(whole, namesIn(score)), pages: [] };
  return replyJson({ report, letters } satisfies PagesReport);
};

const replySource = (annotation: Annotation, source: SourceFile | null): Outcome<Reply> => {
  if (source === null) throw new Error('the annotated file was asked for, and was not made');
  return { ok: true, value: replySourceFile(namePiece(annotation.titles), source) };
};

/** A form in which a score is sent; a piece stays in the service. */
export type SentFormat = Exclude<ReplyFormat, { readonly kind: 'piece' | 'pages' }>;

/**
 * Puts an annotated score into the form that was wished for.
 *
 * @returns the answer, or `page-out-of-range`
 */
export const composeReply = async (annotated: Annotated, format: SentFormat): Promise<Outcome<Reply>> => {
  const { annotation, source } = annotated;
  switch (format.kind) {
    case 'pdf':
      return replyPdf(annotation);
    case 'svg':
      return replyDrawing(
        findPage(annotation.pages, format.page, format.address, nameFile(annotation, 'svg')),
      );
    case 'png':
      return replyPainted(
        findPage(annotation.pages, format.page, format.address, nameFile(annotation, 'png')),
      );
    case 'report':
      return replyReport(annotated);
    case 'source':
      return replySource(annotation, source);
  }
};

export const ARCHIVE_TYPE = 'application/zip';

/** The header that tells a class set, with the number of its pieces. */
const PIECES_HEADER = 'Tringle-Pieces';

/** Whether a result is a class set. */
export const isClassSet = (headers: Reply['headers'] | null): boolean =>
  headers?.[PIECES_HEADER] !== undefined;

/** Several pieces as one PDF. */
export const replyClassSet = ({ pdf, pageCount }: ClassSet, pieces: number): Outcome<Reply> => {
  const headers = {
    'Content-Type': 'application/pdf',
    'Content-Disposition': dispositionOf('class set.pdf'),
    'Tringle-Page-Count': `${pageCount}`,
    [PIECES_HEADER]: `${pieces}`,
  };
  return reply(headers, pdf);
};

/** A fixed date: the same score gives the same bytes. */
const ARCHIVE_DATE = new Date(1980, 0, 1);

const packFiles = (files: readonly HarpFile[]): Uint8Array =>
  zipSync(
    Object.fromEntries(
      files.map(({ name, ending, content }) => [
        `${name}.${ending}`,
        typeof content === 'string' ? strToU8(content) : content,
      ]),
    ),
    { mtime: ARCHIVE_DATE },
  );

/** Puts all harps of a score, or both players of a part, into one archive; the file with all markings, where it alone is wished for, is sent as it is. */
export const composeHarpsReply = (harps: AnnotatedHarps, format: SentFormat): Outcome<Reply> => {
  const { source, title } = harps;
  if (format.kind === 'source' && source !== null) return { ok: true, value: replySourceFile(title, source) };
  const headers = { 'Content-Type': ARCHIVE_TYPE, 'Content-Disposition': nameAfter(title, 'zip') };
  return reply(headers, packFiles(listHarpFiles(harps, format.kind === 'png' ? 'svg' : format.kind)));
};
